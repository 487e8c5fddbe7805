using System.Globalization;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Pages.Statements;

/// <summary>Months, quarters and years as they are chosen: "2026-03", "2026-Q1", "2026".</summary>
public static class Periods
{
    /// <summary>The period a choice names; null for none.</summary>
    public static Period? Read(string? text)
    {
        if (text is null || text.Length is not (4 or 7) || !int.TryParse(text.AsSpan(0, 4), NumberStyles.None, CultureInfo.InvariantCulture, out var year) || year is < 1900 or > 9998) return null;
        if (text.Length == 4) return new(new(year, 1, 1), new(year, 12, 31));
        if (text[4] != '-') return null;
        if (text[5] == 'Q' && text[6] is >= '1' and <= '4') return Span(year, (text[6] - '1') * 3 + 1, 3);
        return int.TryParse(text.AsSpan(5), NumberStyles.None, CultureInfo.InvariantCulture, out var month) && month is >= 1 and <= 12 ? Span(year, month, 1) : null;
    }

    /// <summary>The choice for the month of a day.</summary>
    public static string MonthOf(DateOnly day) => day.ToString("yyyy-MM", CultureInfo.InvariantCulture);

    /// <summary>What can be chosen: months of the last two years, quarters of the last four, every year, newest first.</summary>
    public static IReadOnlyList<(Sentence Kind, IReadOnlyList<(string Value, string Text)> Periods)> Of(DateOnly first, DateOnly today, Show show)
    {
        var months = new List<(string, string)>();
        for (var month = new DateOnly(today.Year, today.Month, 1); month >= new DateOnly(first.Year, first.Month, 1) && months.Count < 24; month = month.AddMonths(-1)) months.Add((MonthOf(month), show.Month(month)));
        var quarters = new List<(string, string)>();
        for (var quarter = new DateOnly(today.Year, (today.Month - 1) / 3 * 3 + 1, 1); quarter.AddMonths(3) > first && quarters.Count < 16; quarter = quarter.AddMonths(-3))
            quarters.Add(($"{quarter.Year:0000}-Q{(quarter.Month + 2) / 3}", show.T[$"{show.MonthAlone(quarter)} to {show.Month(quarter.AddMonths(2))}"]));
        var years = Enumerable.Range(0, today.Year - first.Year + 1).Select(back => (today.Year - back).ToString("0000", CultureInfo.InvariantCulture)).Select(year => (year, year)).ToList();
        return [("Months", months), ("Quarters", quarters), ("Years", years)];
    }

    private static Period Span(int year, int month, int months) => new(new(year, month, 1), new DateOnly(year, month, 1).AddMonths(months).AddDays(-1));
}
