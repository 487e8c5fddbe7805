using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>What one entry gives to one line of a statement; negative for what is taken back.</summary>
public readonly record struct Contribution(long Entry, Section Section, string Class, Category Category, Direction Direction, Volume Volume, BottleCount Bottles);

/// <summary>
/// Turns what the fold saw into contributions, for the classes of one scheme. Moves within a class are nil. A change of class outside a process
/// reads as such; wines of different classes that meet read as a blend, what lay there included.
/// </summary>
internal sealed class Contributions(ClassScheme scheme, Func<string, Volume> sizeOf, Action<Contribution> emit)
{
    private static readonly Category ClassChange = Category.Of("CLASS_CHANGE");
    private static readonly Category ClassChangeBottled = Category.Of("CLASS_CHANGE_BOTTLED");
    private static readonly Category BlendUsed = Category.Of("BLEND_USED");
    private static readonly Category BlendMade = Category.Of("BLEND_MADE");

    private readonly List<(string Class, Volume Volume)> met = [];
    private long entry;

    public void Read(IReadOnlyList<Effect> effects)
    {
        for (var i = 0; i < effects.Count; i++) Read(effects[i]);
    }

    private void Read(Effect effect)
    {
        entry = effect.Deed.Entry;
        switch (effect.Kind)
        {
            case EffectKind.Move:
                Move(effect.Deed.Postings[effect.Posting], effect.Before, effect.After);
                break;
            case EffectKind.Restated:
                Change(effect.Account!, Class(effect.Before), Class(effect.After), effect.Volume);
                break;
            case EffectKind.MetPart:
                met.Add((Class(effect.Before), effect.Volume));
                break;
            case EffectKind.MetResult:
                Met(effect.Account!, Class(effect.After), effect.Volume);
                met.Clear();
                break;
        }
    }

    private string Class(Standing standing) => scheme.Of(standing).Code;

    private void Move(Posting posting, Standing before, Standing after)
    {
        // A take-back has the accounts of what it takes back swapped, and counts against that one's direction.
        var (from, to) = posting.IsTakenBack ? (posting.To, posting.From) : (posting.From, posting.To);
        var (given, received) = posting.IsTakenBack ? (after, before) : (before, after);
        var volume = posting.IsTakenBack ? -posting.Volume : posting.Volume;
        var bottles = posting.IsTakenBack ? -posting.Bottles : posting.Bottles;
        var category = posting.Category;
        if (from.Section == Section.Must && to.Section == Section.Must) return;
        if (from.Section == Section.Must) Emit(Section.Must, "", category, Direction.Out, volume, default);
        if (to.Section == Section.Must) Emit(Section.Must, "", category, Direction.In, volume, default);

        if (!from.Section.IsWine() || !to.Section.IsWine())
        {
            if (from.Section.IsWine()) Emit(from.Section, Class(given), category, Direction.Out, volume, from.Section == Section.Bottled ? bottles : default);
            if (to.Section.IsWine()) Emit(to.Section, Class(received), category, Direction.In, volume, to.Section == Section.Bottled ? bottles : default);
            return;
        }
        var (one, other) = (Class(given), Class(received));
        switch (from.Section, to.Section)
        {
            case (Section.Bulk, Section.Bulk):
                Change(from, one, other, volume);
                break;
            case (Section.Bottled, Section.Bottled):
                Change(from, one, other, volume);
                break;
            case (Section.Bulk, Section.Bottled):
                // A bottling stated in another class than its tank changes class first, in bulk.
                Change(from, one, other, volume);
                Emit(Section.Bulk, other, category, Direction.Out, volume, default);
                Emit(Section.Bottled, other, category, Direction.In, volume, bottles);
                break;
            default:
                Emit(Section.Bottled, one, category, Direction.Out, volume, bottles);
                Emit(Section.Bulk, one, category, Direction.In, volume, default);
                Change(to, one, other, volume);
                break;
        }
    }

    private void Change(Account account, string from, string to, Volume volume)
    {
        if (from == to) return;
        var bottled = account.Section == Section.Bottled;
        var category = bottled ? ClassChangeBottled : ClassChange;
        var bottles = bottled ? BottlesIn(account, volume) : default;
        Emit(account.Section, from, category, Direction.Out, volume, bottles);
        Emit(account.Section, to, category, Direction.In, volume, bottles);
    }

    private void Met(Account account, string result, Volume total)
    {
        if (met.TrueForAll(part => part.Class == result)) return;
        if (account.Section == Section.Bottled || met.TrueForAll(part => part.Class == met[0].Class))
        {
            foreach (var (wine, volume) in met) Change(account, wine, result, volume);
            return;
        }
        foreach (var (wine, volume) in met) Emit(Section.Bulk, wine, BlendUsed, Direction.Out, volume, default);
        Emit(Section.Bulk, result, BlendMade, Direction.In, total, default);
    }

    private BottleCount BottlesIn(Account account, Volume volume) => new(volume.Microlitres / sizeOf(account.Name).Microlitres);

    private void Emit(Section section, string wine, Category category, Direction direction, Volume volume, BottleCount bottles) =>
        emit(new(entry, section, wine, category, direction, volume, bottles));
}
