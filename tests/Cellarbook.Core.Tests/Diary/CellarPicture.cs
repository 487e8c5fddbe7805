using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;

namespace Cellarbook.Core.Tests.Diary;

/// <summary>
/// A cellar and its statements as plain lines of text, to tell whether two books show the same. Entry numbers are left out on purpose: they say
/// when something was written down, not what is there.
/// </summary>
public static class CellarPicture
{
    /// <summary>What is and was there, without what only tells that a place once was used.</summary>
    public static string Of(Book.Book book) => Of(book.Now);

    public static string Of(Cellar cellar) => string.Join("\n", cellar.Places.Select(Line).Order(StringComparer.Ordinal)
        .Concat(cellar.Vessels.Select(hold => $"{hold.Code} holds {hold.Held}, at most {hold.Peak}, of {string.Join(" ", hold.Accounts.Select(account => account.ToString()).Order(StringComparer.Ordinal))}").Order(StringComparer.Ordinal))
        .Concat(cellar.Bottlings.Select(facts => $"{facts.Code} of {facts.Size}: {facts.Filled} filled from {string.Join(" ", facts.Lots)} since {facts.FirstDay:yyyy-MM-dd}").Order(StringComparer.Ordinal)));

    /// <summary>The period statement of every month and of the whole, line by line.</summary>
    public static string Statements(Book.Book book)
    {
        if (book.FirstDay is not { } first) return "";
        var end = book.Pages[^1].Day;
        var periods = new List<Period> { new(first, end) };
        for (var month = new DateOnly(first.Year, first.Month, 1); month <= end; month = month.AddMonths(1)) periods.Add(new(month, month.AddMonths(1).AddDays(-1)));
        return string.Join("\n", periods.SelectMany(period => PlainStatement.Build(book, period, ClassScheme.Default).Lines
            .Select(line => $"{period} {line.Section} {line.Class} {line.Category} {line.Direction} {line.Volume} {line.Bottles}")));
    }

    /// <summary>Doses without the numbers of the entries they rest on.</summary>
    private static string Said(Carried? carried) => carried is null ? "" : string.Join(" ", carried.Doses.Select(dose =>
        $"{dose.Substance.Code} {dose.AddedInMust} + {dose.AddedInWine}, stands at {dose.Standing}, at most {dose.Highest}{(dose.HasUnstated ? ", some unstated" : "")}, analysed {dose.HowMuchAnalysed} but {dose.Unanalysed}"));

    private static string Line(Place place) =>
        $"{place.Account}: {place.Volume} {place.Bottles} × {place.BottleSize} {place.Weight} {(place.Material.IsNil ? "" : place.Material.Units)}{Said(place.Carried)} [{place.Standing}] {string.Join(" + ", place.Origin.Shares.Select(share => $"{share.Parts} {share.Origin}"))} "
        + $"({string.Join(" ", place.Notes.Cultures)} {place.Notes.Malolactic} {string.Join(" ", place.Notes.Readings.Select(reading => reading.Key + "=" + reading.Value.Text))} {place.Notes.Additions.Count} additions) {place.FirstDay:yyyy-MM-dd} {place.LastDay:yyyy-MM-dd}";
}
