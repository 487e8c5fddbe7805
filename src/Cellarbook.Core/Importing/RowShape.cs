using Cellarbook.Core.Book;

namespace Cellarbook.Core.Importing;

/// <summary>The two sides of a row, found from its category, its lots, its account columns and what else it gives.</summary>
/// <param name="From">Section given from; none on a counter side.</param>
/// <param name="To">Section put to; none on a counter side.</param>
/// <param name="Ambiguous">True when the category alone doesn't tell the section.</param>
/// <param name="Backwards">For the two that may run either way, whether this row runs against its category; null where nothing tells.</param>
internal sealed record RowShape(Section From, Section To, bool Ambiguous, bool? Backwards)
{
    /// <summary>The stock section of a row that touches one.</summary>
    public Section Stock => From.IsStock() ? From : To;

    public static RowShape? Find(Category category, ToldAccount? from, ToldAccount? to, string lotFrom, string lotTo, bool bottles, bool strength, string? reverses, string eventId, out Refusal? fault)
    {
        fault = null;
        var (give, receive) = (category.From, category.To);
        if (category.MovesNothing) return new(Section.None, Section.None, false, null);
        // Those that may run either way tell their own direction, also when taken back; any other swap is a take-back.
        var backwards = category.MayGoEitherWay ? RunsBackwards(category, from, to, lotFrom, lotTo, eventId, reverses) : null;
        var swapped = category.MayGoEitherWay ? backwards == true : reverses is not null;
        var (given, put) = swapped ? (receive, give) : (give, receive);
        // An account column may tell one of several sections; else bottles tell bottled, a strength or no must side bulk, the rest must.
        var ambiguous = given.Sections.Count > 1 || put.Sections.Count > 1;
        var fromSection = Pick(given, from, bottles, strength);
        var toSection = Pick(put, to, bottles, strength);
        if (!Fits(given, from, fromSection)) fault = new(RefusalCode.WrongAccount, "from_account", $"{category.Code} can't come from {from!.Name}.");
        else if (!Fits(put, to, toSection)) fault = new(RefusalCode.WrongAccount, "to_account", $"{category.Code} can't go to {to!.Name}.");
        else return new(fromSection, toSection, ambiguous, backwards);
        return null;
    }

    private static bool? RunsBackwards(Category category, ToldAccount? from, ToldAccount? to, string lotFrom, string lotTo, string eventId, string? reverses)
    {
        if (from is not null) return from.Name == category.To.Counters[0];
        if (to is not null) return to.Section == category.From.Sections[0];
        if (lotFrom.Length == 0 && lotTo.Length == 0) return null;
        if (category.From.IsProcess) return lotFrom.Length == 0 && (lotTo == eventId || lotTo == reverses);
        return lotFrom.Length == 0;
    }

    private static Section Pick(Category.Side side, ToldAccount? told, bool bottles, bool strength)
    {
        if (side.Sections.Count == 0) return Section.None;
        if (side.Sections.Count == 1) return side.Sections[0];
        if (told is not null && side.Allows(told.Section)) return told.Section;
        if (bottles && side.Allows(Section.Bottled)) return Section.Bottled;
        if (strength || !side.Allows(Section.Must)) return Section.Bulk;
        return Section.Must;
    }

    private static bool Fits(Category.Side side, ToldAccount? told, Section section)
    {
        if (told is null) return true;
        return told.Section == Section.None ? side.Counters.Contains(told.Name) : told.Section == section;
    }
}
