using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.LotFigures;

/// <summary>The derived figures of what lies in one place: each with its formula and the entries behind it, or why it can't be said.</summary>
/// <param name="Account">Must or wine of a lot in a vessel.</param>
/// <param name="Figures">What can be said.</param>
/// <param name="CannotSay">What can't, with what is missing.</param>
public sealed record PlaceFigures(Account Account, IReadOnlyList<LotFigure> Figures, IReadOnlyList<BenchRefusal> CannotSay)
{
    /// <summary>Readings looked at to say whether gravity still falls.</summary>
    public const int ReadingsForSteady = 3;

    /// <summary>Spread of gravity that counts as steady: what two honest readings may differ by.</summary>
    public const double SteadyGravity = 0.001;

    private static readonly Formula AsStated = new("Strength as stated in the book", "the entry that stated it", SourceCheck.Derived, "as long as nothing else is stated");
    private static readonly Formula Mixed = new("Mixed from stated strengths", "litres of pure alcohol over litres of wine, to whole 0.01 % vol, half up", SourceCheck.Derived, "alcohol is conserved; where wines meet their volumes add, in a process the volume measured out counts");
    private static readonly Formula Movement = new("Fall of gravity between readings", "first less last reading over the days between", SourceCheck.Derived, "readings of one wine to which nothing was added between them");

    /// <summary>The figure of that name, or null.</summary>
    public LotFigure? Find(string name) => Figures.FirstOrDefault(figure => figure.Result.Name == name);

    /// <summary>Figures of every place of a lot that holds something; null for an unknown lot.</summary>
    /// <param name="book">The book.</param>
    /// <param name="lot">The lot.</param>
    /// <param name="on">At the end of that day; null: at the end of the book.</param>
    public static IReadOnlyList<PlaceFigures>? OfLot(Book.Book book, string lot, DateOnly? on = null)
    {
        var cellar = on is { } day ? book.AsOf(day) : book.Now;
        return cellar.AccountsOfLot(lot).IsEmpty ? null : [.. cellar.PlacesOfLot(lot).Select(place => Of(book, place, on))];
    }

    /// <summary>Figures of a place, as it stands at the end of a day.</summary>
    public static PlaceFigures Of(Book.Book book, Place place, DateOnly? on = null)
    {
        SugarFactor factor = PotentialAlcohol.Eu;
        var story = Storyteller.Tell(book, place.Account, on, factor.GramsPerLitrePerAbv);
        var sheet = new Sheet(place, story);
        sheet.Gravity();
        sheet.Strength(book);
        sheet.Potential(factor, book.Premises?.Regimes?.Any(regime => regime is "eu" or "organic-eu") == true);
        sheet.MolecularSo2();
        return new(place.Account, sheet.Figures, sheet.CannotSay);
    }

    private sealed class Sheet(Place place, WineStory story)
    {
        public List<LotFigure> Figures { get; } = [];

        public List<BenchRefusal> CannotSay { get; } = [];

        public void Gravity()
        {
            if (story.LastGravity is not { } last)
            {
                Refuse("gravity20", "Cannot say: no gravity of this wine is in the book (a reading lapses when another wine comes in). Measure it.", "a hydrometer reading", Hydrometer.Must.Source);
                return;
            }
            var source = new FigureReading(last.Entry, last.Day, last.How);
            Sentence? later = story.AddedAfterReading is { } added ? (Sentence)$"Read before {added}." : null;
            if (last.Corrected?.Invoke() is { } corrected) Figures.Add(new(corrected with { Caution = later is null ? corrected.Caution : Sentence.Join(" ", new[] { later, corrected.Caution ?? Sentence.Empty }) }, [source]));
            else Refuse("gravity20", $"Cannot say: {last.How} (entry {last.Entry}). Note the temperature of the sample with the reading.", Hydrometer.Must.Validity, Hydrometer.Must.Source);
            Moves();
        }

        private void Moves()
        {
            var readings = story.Gravities.TakeLast(ReadingsForSteady).ToArray();
            if (readings.Length < 2)
            {
                Refuse("gravityFall", "Cannot say whether gravity still falls: it takes two readings since something last went in.", Movement.Validity, Movement.Source);
                return;
            }
            var (first, last) = (readings[0], readings[^1]);
            int days = last.Day.DayNumber - first.Day.DayNumber;
            double fall = first.Gravity - last.Gravity, spread = readings.Max(read => read.Gravity) - readings.Min(read => read.Gravity);
            // Half a digit of the fourth decimal keeps 1.050 and 1.049 on the steady side, whatever binary fractions make of them.
            string how = days == 0 ? "readings of one day" : spread <= SteadyGravity + 0.00005 ? "steady" : fall > 0 ? "falling" : "rising";
            Figures.Add(new(Movement.Explain("gravityFall", $"Gravity over the last {readings.Length} readings: {how}", fall, "SG", 4, $"{Number(first.Gravity, 4)} - {Number(last.Gravity, 4)} in {days} days") with
            {
                Uncertainty = 0.001,
                UncertaintyBasis = "assumed: two readings of a hydrometer, 0.0007 each (a judgement)",
                Caution = how == "steady" ? "Steady is no proof of the end: a stuck ferment is steady too. Look at the gravity itself, and taste." : how == "rising" ? "Gravity does not rise by itself: a reading is wrong, or something went in that is not in the book." : null,
            }, [.. readings.Select(read => new FigureReading(read.Entry, read.Day, read.How))]));
        }

        public void Strength(Book.Book book)
        {
            BenchAnswer estimate = story.ByGravity.Close();
            foreach (Explained result in estimate.Results)
                Figures.Add(new(result with { Name = result.Name == "abv" ? "abvEstimated" : "abvBySugar", Caution = story.LateFirst is { } late && story.ByGravity.HasBegun ? Sentence.Join(" ", new[] { late, result.Caution ?? Sentence.Empty }) : result.Caution }, story.Sources));
            if (estimate.Find("abv") is null) Refuse("abvEstimated", Missing(estimate), StrengthHistory.Estimated.Validity, StrengthHistory.Estimated.Source);
            CannotSay.AddRange(estimate.Refusals.Where(refusal => refusal.Path == "abvBySugar"));

            if (story.ByStrength.RestsOnStrength)
            {
                BenchAnswer answer = story.ByStrength.Close();
                var holds = story.ByStrength.StrengthHolds;
                if (answer.Find("abv") is { } abv && !(holds && abv.Formula == StrengthHistory.Stated))
                    Figures.Add(new(abv with { Name = holds ? "abvMeasured" : "abvCarried", Caution = holds ? null : abv.Caution }, [.. story.Sources.Skip(story.StrengthAt)]));
                else if (!holds) CannotSay.AddRange(answer.Refusals.Select(refusal => refusal with { Path = "abvCarried" }));
            }
            if (place.Standing.Strength is not { } stated || place.Account.Section == Section.Must) return;
            Formula formula = place.StrengthIsMixed ? Mixed : AsStated;
            Figures.Add(new(formula.Explain("abvStated", place.StrengthIsMixed ? "Strength, mixed from what was stated" : "Strength, stated", stated.Hundredths / 100.0, "% vol", 2, place.StrengthIsMixed ? MixedOf(book) : "as stated") with
            {
                EntryField = "abv",
            }, StatedBy(book)));
        }

        /// <summary>The mix with its numbers put in: what met here last, each with its strength.</summary>
        private string MixedOf(Book.Book book)
        {
            for (var i = book.FirstPageFrom(place.LastDay.AddDays(1)) - 1; i >= 0 && book.Pages[i].Day >= place.FirstDay; i--)
            {
                var effects = book.Pages[i].Effects;
                var at = effects.FindLastIndex(effect => effect.Kind == EffectKind.MetResult && effect.Account == place.Account);
                if (at < 0) continue;
                var parts = new List<string>();
                for (var part = at - 1; part >= 0 && effects[part].Kind == EffectKind.MetPart && effects[part].Account == place.Account; part--) parts.Insert(0, $"{effects[part].Volume} × {effects[part].Before.Strength}");
                return $"entry {effects[at].Deed.Entry}: ({string.Join(" + ", parts)}) / {effects[at].Volume}";
            }
            return "pure alcohol of what was put in over what was measured out";
        }

        /// <summary>The entries that moved or stated the strength of this place last.</summary>
        private FigureReading[] StatedBy(Book.Book book)
        {
            for (var i = book.FirstPageFrom(place.LastDay.AddDays(1)) - 1; i >= 0 && book.Pages[i].Day >= place.FirstDay; i--)
                for (var j = book.Pages[i].Deeds.Count - 1; j >= 0; j--)
                {
                    var deed = book.Pages[i].Deeds[j];
                    if (deed.Postings.FirstOrDefault(posting => posting.To == place.Account && (posting.Strength is not null || posting.From.IsStock || posting.From.Section == Section.Process)) is { } posting)
                        return [new(deed.Entry, deed.Day, posting.Strength is { } said ? (Sentence)$"{said} stated" : (Sentence)$"{posting.Volume} came from {posting.From.Name} with its strength")];
                }
            return [];
        }

        private Sentence Missing(BenchAnswer estimate)
        {
            if (story.ByGravity.HasBegun) return estimate.Refusals[0].Sentence;
            if (story.LateFirst is { } late) return $"Cannot say: {late}";
            return place.Account.Section == Section.Must ? "Cannot say: no gravity was read yet. Measure it before the yeast goes in." : "Cannot say: no gravity from before fermentation is in the book. Have the strength measured.";
        }

        public void Potential(SugarFactor factor, bool ruled)
        {
            if (!story.ByGravity.IsRunning) return;
            Explained potential = story.ByGravity.Potential("potentialAbv");
            if (double.IsFinite(potential.Value))
                Figures.Add(new(potential with { Caution = ruled ? (Sentence)$"By {factor.Label} ({factor.Source})." : (Sentence)$"Assumed: {Typed(factor.GramsPerLitrePerAbv)} g/L of sugar for one % vol ({factor.Label}); other rules count otherwise." }, story.Sources));
            else Refuse("potentialAbv", $"Potential strength: cannot say, the figures are outside what \"{potential.Method}\" holds for.", potential.Validity, potential.Source);
        }

        public void MolecularSo2()
        {
            var readings = place.Notes.Readings;
            if (!readings.TryGetValue("freeSo2MgPerLitre", out var free))
            {
                Refuse("molecularMgPerLitre", "Cannot say: no free SO2 of this wine is in the book. Measure it, and the pH.", Sulphite.HendersonHasselbalch.Validity, Sulphite.HendersonHasselbalch.Source);
                return;
            }
            if (!readings.TryGetValue("ph", out var ph))
            {
                Refuse("molecularMgPerLitre", "Cannot say: the pH of this wine is not known. Measure it.", Sulphite.HendersonHasselbalch.Validity, Sulphite.HendersonHasselbalch.Source);
                return;
            }
            double mg = Figure(free), acidity = Figure(ph), molecular = Sulphite.MolecularMgPerLitre(mg, acidity, Sulphite.CustomaryPKa);
            if (!double.IsFinite(molecular))
            {
                Refuse("molecularMgPerLitre", $"Cannot say: free SO2 {free.Text} mg/L or pH {ph.Text} is outside what the formula holds for.", Sulphite.HendersonHasselbalch.Validity, Sulphite.HendersonHasselbalch.Source);
                return;
            }
            Sentence later = place.Notes.Additions.Any(entry => entry > free.Entry) ? "Something was added since the free SO2 was read: measure it again. " : "";
            Figures.Add(new(Sulphite.HendersonHasselbalch.Explain("molecularMgPerLitre", "Molecular SO2", molecular, "mg/L", 2, $"{free.Text} / (1 + 10^({ph.Text} - {Typed(Sulphite.CustomaryPKa)}))") with
            {
                Caution = $"{later}Reckoned with the pKa {Typed(Sulphite.CustomaryPKa)} of printed charts; free SO2 sinks from day to day.",
            }, free.Entry == ph.Entry ? [new(free.Entry, free.Day, $"free SO2 {free.Text} mg/L, pH {ph.Text}")] : [new(free.Entry, free.Day, $"free SO2 {free.Text} mg/L"), new(ph.Entry, ph.Day, $"pH {ph.Text}")]));
        }

        private static double Figure(NotedReading reading) => double.Parse(reading.Text, System.Globalization.CultureInfo.InvariantCulture);

        private void Refuse(string path, Sentence sentence, Sentence valid, Sentence source) => CannotSay.Add(new(RefusalCodes.CannotSay, path, sentence, valid, source));
    }
}
