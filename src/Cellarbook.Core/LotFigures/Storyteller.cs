using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.LotFigures;

/// <summary>
/// Goes through what the book holds of the wine in one place, and of every wine that met it on the way, in book order. The account is looked back
/// from first, so that nothing is read that has no part in it.
/// </summary>
internal sealed class Storyteller
{
    private readonly Book.Book book;
    private readonly double factor;
    private readonly Dictionary<Account, (Volume Volume, WineStory Story)> places = [];
    private (Volume Volume, WineStory Story)? process;

    private Storyteller(Book.Book book, double factor)
    {
        this.book = book;
        this.factor = factor;
    }

    /// <summary>The story of what lies in an account at the end of a day.</summary>
    /// <param name="book">The book.</param>
    /// <param name="account">Must or wine of a lot in a vessel.</param>
    /// <param name="on">The day; null: the end of the book.</param>
    /// <param name="factor">Grams of sugar per litre for one % vol.</param>
    public static WineStory Tell(Book.Book book, Account account, DateOnly? on, double factor)
    {
        var teller = new Storyteller(book, factor);
        foreach (var (page, deed) in LookBack(book, account, on)) teller.Go(page, deed);
        return teller.places.TryGetValue(account, out var place) ? place.Story : new WineStory(factor);
    }

    /// <summary>Every deed that touched the account, or a place whose wine came into it later; in book order.</summary>
    private static List<(Page Page, Deed Deed)> LookBack(Book.Book book, Account account, DateOnly? on)
    {
        var found = new List<(Page, Deed)>();
        var concerned = new HashSet<Account> { account };
        var place = book.Now.At(account);
        var since = place.FirstDay;
        var last = on < place.LastDay ? on.Value : place.LastDay;
        for (var i = book.FirstPageFrom(last.AddDays(1)) - 1; i >= 0 && book.Pages[i].Day >= since; i--)
        {
            var page = book.Pages[i];
            for (var j = page.Deeds.Count - 1; j >= 0; j--)
            {
                var deed = page.Deeds[j];
                if (!Concerns(deed, concerned)) continue;
                found.Add((page, deed));
                foreach (var giver in Givers(deed, concerned))
                    if (concerned.Add(giver) && book.Now.At(giver).FirstDay is var first && first < since) since = first;
            }
        }
        found.Reverse();
        return found;
    }

    private static bool Concerns(Deed deed, HashSet<Account> concerned)
    {
        for (var i = 0; i < deed.Postings.Count; i++)
            if (concerned.Contains(deed.Postings[i].To) || concerned.Contains(deed.Postings[i].From)) return true;
        return deed.Operation is NoteOperation note && concerned.Any(account => IsAbout(note, account));
    }

    private static bool IsAbout(NoteOperation note, Account account) => note.Lot == account.Name && (note.Vessel is null || note.Vessel == account.Place);

    /// <summary>Must and wine that a deed brings into the places concerned, through a process or one after the other.</summary>
    private static List<Account> Givers(Deed deed, HashSet<Account> concerned)
    {
        var givers = new List<Account>();
        bool IsInto(Account account) => concerned.Contains(account) || givers.Contains(account);
        var through = deed.Postings.Any(posting => posting.From.Section == Section.Process && concerned.Contains(posting.To));
        for (var i = deed.Postings.Count - 1; i >= 0; i--)
        {
            var posting = deed.Postings[i];
            if (IsLiquid(posting.From) && !IsInto(posting.From) && (IsInto(posting.To) || (through && posting.To.Section == Section.Process))) givers.Add(posting.From);
        }
        return givers;
    }

    private static bool IsLiquid(Account account) => account.Section is Section.Must or Section.Bulk;

    private void Go(Page page, Deed deed)
    {
        process = null;
        for (var i = 0; i < deed.Postings.Count; i++) Move(page, deed, i);
        // Readings of an entry that was taken back later are no readings.
        if (deed.TakesBack is not null || book.Find(deed.Entry)?.TakenBackBy is not null) return;
        switch (deed.Operation)
        {
            case NoteOperation note:
                foreach (var account in places.Keys.Where(account => IsAbout(note, account) && places[account].Volume.IsPositive).ToArray()) Note(deed, note, account);
                break;
            case MakeUp { SugarGrams: { } sugar, SugarLitres: null } made when deed.Postings.Count > 0 && places.TryGetValue(deed.Postings[0].To, out var there):
                there.Story.Add(new StrengthStep.SugarAdded(sugar.Milligrams / 1e6), Source(deed, $"+ {sugar} sugar"));
                ReadAfter(deed, made);
                break;
            case MakeUp made:
                ReadAfter(deed, made);
                break;
        }
    }

    private void ReadAfter(Deed deed, MakeUp made)
    {
        if (made.BrixAfter is { } brix && deed.Postings.Count > 0 && BrixScale.ToGravity(brix.Value) is var gravity && double.IsFinite(gravity) && places.TryGetValue(deed.Postings[0].To, out var there))
            there.Story.Read(new(deed.Entry, deed.Day, gravity, $"{brix.Text} °Brix made up, which is SG {Number(gravity, 4)}", null), Litres(there.Volume), isMust: true);
    }

    private void Move(Page page, Deed deed, int at)
    {
        var posting = deed.Postings[at];
        if (posting.From == posting.To)
        {
            if (posting.Strength is { } found && places.TryGetValue(posting.From, out var lying)) Settle(deed, lying, found, measured: deed.Operation is Regauge { Estimated: not true });
            return;
        }
        WineStory? given = null;
        if (IsLiquid(posting.From))
        {
            var (volume, story) = At(posting.From);
            given = Part(story, posting.Volume, volume);
            var left = volume - posting.Volume;
            if (left.IsPositive) story.Keep(Share(left, volume));
            if (posting.IsTakenBack && (posting.To.IsOutside || posting.To.IsMatter)) story.Add(new StrengthStep.UnknownAdded($"what entry {deed.TakesBack} brought, taken back later,"), Source(deed, $"entry {deed.TakesBack} was taken back"));
            // What is overdrawn for a moment, as must that grew when it was measured as wine, stays the same must.
            places[posting.From] = (left, left.IsNil ? new WineStory(factor) : story);
        }
        if (posting.To.Section == Section.Process) Put(deed, posting, given);
        else if (IsLiquid(posting.To)) Receive(page, deed, at, given);
    }

    private void Receive(Page page, Deed deed, int at, WineStory? given)
    {
        var posting = deed.Postings[at];
        var (volume, story) = At(posting.To);
        if (posting.From.Section == Section.Process && process is { } mixed) given = Part(mixed.Story, posting.Volume, mixed.Volume);
        var sum = volume + posting.Volume;
        if (given is not null && !volume.IsPositive) story = given;
        else if (given is not null && given.IsSameAs(story)) story.Keep(Share(sum, volume));
        else if (given is not null) story.Meet(given, Litres(posting.Volume), StatedBefore(page, deed, at), posting.From.Name, Source(deed, $"+ {posting.Volume} of {posting.From.Name} from {posting.From.Place}"));
        else if (IsMoreOfTheSame(posting))
        {
            if (volume.IsPositive) story.Keep(Share(sum, volume));
        }
        else FromOutside(page, deed, at, volume, story);
        places[posting.To] = (sum, story);
        if (posting.Strength is { } stated && posting.To.Section == Section.Bulk && (posting.From.Section is Section.Must or Section.Process || (given is not null && !volume.IsPositive)))
            Settle(deed, places[posting.To], stated, measured: deed.Operation is { Estimated: false });
    }

    /// <summary>What comes from no place that is followed: the supplier, the tap, the sugar sack, opened bottles.</summary>
    private static void FromOutside(Page page, Deed deed, int at, Volume volume, WineStory story)
    {
        var posting = deed.Postings[at];
        double litres = Litres(posting.Volume);
        var nothing = !volume.IsPositive;
        if (posting.To.Section == Section.Bulk)
        {
            // Wine from outside comes with the strength stated for it; opened bottles keep theirs.
            Strength? abv = posting.From.Section == Section.Bottled ? StrengthBefore(page, deed, at) : posting.Strength;
            var source = Source(deed, $"+ {posting.Volume} of wine at {(abv is { } strong ? Sentence.Verbatim(strong.ToString()) : "a strength nobody stated")}");
            if (nothing && abv is { } first) story.State(Percent(first), litres, source);
            else if (!nothing) story.Add(abv is { } known ? new StrengthStep.WineAdded(litres, Percent(known), null, null) : new StrengthStep.UnknownAdded($"{posting.Volume} of wine of unknown strength"), source);
            return;
        }
        switch (posting.Category.Code)
        {
            case "WATER_ADDED_MUST" when deed.Operation is not Operations.Add:
                if (!nothing) story.Add(new StrengthStep.WaterAdded(litres), Source(deed, $"+ {posting.Volume} water"));
                break;
            case "SUGAR_VOLUME_MUST" when deed.Operation is not Operations.Add:
                var weighed = (deed.Operation as MakeUp)?.SugarGrams;
                double kilograms = weighed?.Milligrams / 1e6 ?? litres / Enrichment.DissolvedMillilitresPerGram;
                if (!nothing) story.Add(new StrengthStep.SugarAdded(kilograms), Source(deed, $"+ {Typed(Math.Round(kilograms, 4))} kg sugar{(weighed is null ? Sentence.Of(" (by the volume it took up)") : "")}"));
                break;
            case "MUST_RECEIVED" or "GRAPES_CRUSHED" or "OPENING":
                double gravity = BrixOf(deed) is { } brix ? BrixScale.ToGravity(brix.Value) : double.NaN;
                string said = double.IsFinite(gravity) ? $", SG {Number(gravity, 4)} by {BrixOf(deed)!.Value.Text} °Brix on the paper" : "";
                var arrival = Source(deed, $"+ {posting.Volume} of must{said}");
                if (nothing) story.BeginByPaper(litres, gravity, arrival);
                else story.Add(double.IsFinite(gravity) ? new StrengthStep.JuiceAdded(litres, gravity) : new StrengthStep.UnknownAdded($"{posting.Volume} of must of unknown gravity"), arrival);
                break;
        }
    }

    /// <summary>Into a process: wine and must, spirit, water, sweetener.</summary>
    private void Put(Deed deed, Posting posting, WineStory? given)
    {
        double litres = Litres(posting.Volume);
        if (given is not null)
        {
            if (process is not { } lying) process = (posting.Volume, given);
            else
            {
                lying.Story.Meet(given, litres, null, posting.From.Name, Source(deed, $"+ {posting.Volume} of {posting.From.Name} from {posting.From.Place}"));
                process = (lying.Volume + posting.Volume, lying.Story);
            }
            return;
        }
        if (process is not { } there) return;
        var (step, what) = StepOf(deed, posting, litres);
        there.Story.Add(step, Source(deed, $"+ {posting.Volume} of {what}{(posting.Strength is { } at ? Sentence.Of($" at {at}") : "")}"));
        process = (there.Volume + posting.Volume, there.Story);
    }

    private void Note(Deed deed, NoteOperation note, Account account)
    {
        var (volume, story) = places[account];
        switch (note)
        {
            case Pitch:
                story.Pitch(deed.Day);
                break;
            case Operations.Add add:
                foreach (var item in add.Items ?? [])
                    if (MaterialInWine.StepOf(item, Litres(volume)) is var (step, words)) story.Add(step, Source(deed, words));
                break;
            case Measure measure:
                var isMust = account.Section == Section.Must;
                double rough = isMust ? Fermented(story, measure) : double.IsFinite(story.AbvNow) ? story.AbvNow : book.Now.At(account).Standing.Strength is { } stated ? Percent(stated) : 0;
                if (measure.Gravity is not null) story.Read(GravityRead.By(deed, measure, rough), Litres(volume), isMust);
                else if (isMust && !story.ByGravity.HasBegun && GravityRead.ByScale(deed, measure) is { } read) story.Read(read, Litres(volume), isMust);
                if (measure.AbvFound is { } abv && !isMust) story.Measure(abv.Value, Litres(volume), Source(deed, $"{abv.Text} % vol found"));
                else if (measure.AbvFound is { } early && story.ByGravity.HasFermented) story.Measure(early.Value, Litres(volume), Source(deed, $"{early.Text} % vol found"));
                if (measure.SugarGramsPerLitre is { } sugar && (!isMust || story.ByGravity.HasFermented)) story.ReadSugar(sugar.Value, Source(deed, $"residual sugar {sugar.Text} g/L"));
                break;
        }
    }

    /// <summary>Strength made so far, roughly, to choose how the reading expands; nil while gravity has hardly fallen.</summary>
    private static double Fermented(WineStory story, Measure measure)
    {
        double so = double.IsFinite(story.AbvNow) ? story.AbvNow : 0, fall = measure.Gravity is { } read ? story.ByGravity.GravityNow - read.Value : 0;
        return fall > 0 ? so + (GravityStrength.LinearFactor * fall) is var abv && abv > 1 ? abv : 0 : so;
    }

    private static void Settle(Deed deed, (Volume Volume, WineStory Story) place, Strength strength, bool measured)
    {
        if (measured) place.Story.Measure(Percent(strength), Litres(place.Volume), Source(deed, $"{strength} measured"));
        else place.Story.State(Percent(strength), Litres(place.Volume), Source(deed, $"{strength} stated"));
    }

    private (Volume Volume, WineStory Story) At(Account account) => places.TryGetValue(account, out var place) ? place : (Volume.None, new WineStory(factor));

    private static WineStory Part(WineStory story, Volume part, Volume whole)
    {
        var copy = story.Copy();
        if (whole.IsPositive) copy.Keep(Share(part, whole));
        return copy;
    }

    /// <summary>A surplus found, shrinkage below nil, or a sale taken back: more of what lies there.</summary>
    private static bool IsMoreOfTheSame(Posting posting) =>
        posting.IsTakenBack || posting.From is { IsStock: false, IsOutside: false, IsMatter: false };

    /// <summary>What matter put into a process does to its strength, and what it is called.</summary>
    private static (StrengthStep Step, Sentence What) StepOf(Deed deed, Posting posting, double litres)
    {
        if (posting.From == Account.Spirit) return (posting.Strength is { } abv ? new StrengthStep.SpiritAdded(litres, Percent(abv)) : new StrengthStep.UnknownAdded($"{posting.Volume} of spirit of unknown strength"), "spirit");
        if (posting.From == Account.Water) return (new StrengthStep.WaterAdded(litres), "water");
        if (deed.Operation is Sweeten { Grams: { } grams, Material: null or "sugar" }) return (new StrengthStep.SugarAdded(grams.Milligrams / 1e6), "sweetener");
        return (new StrengthStep.UnknownAdded($"{posting.Volume} of {((deed.Operation as Sweeten)?.Material is { } named ? Sentence.Verbatim(named) : "sweetener")}, whose sugar is not known,"), "sweetener");
    }

    private static double? StatedBefore(Page page, Deed deed, int at) => StrengthBefore(page, deed, at) is { } stated ? Percent(stated) : null;

    /// <summary>Strength the giving side stood at.</summary>
    private static Strength? StrengthBefore(Page page, Deed deed, int at)
    {
        foreach (var effect in page.Effects)
            if (effect.Kind == EffectKind.Move && effect.Posting == at && ReferenceEquals(effect.Deed, deed)) return effect.Before.Strength;
        return null;
    }

    private static Reading? BrixOf(Deed deed) => deed.Operation switch { Receive receive => receive.Brix, MakeUp made => made.BrixBefore, _ => null };

    private static double Share(Volume part, Volume whole) => (double)part.Microlitres / whole.Microlitres;

    private static double Litres(Volume volume) => volume.Microlitres / 1e6;

    private static double Percent(Strength strength) => strength.Hundredths / 100.0;

    private static FigureReading Source(Deed deed, Sentence what) => new(deed.Entry, deed.Day, what);
}
