using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Statements;

/// <summary>The period statement: opening + in − out = closing, every figure opening to the entries behind it.</summary>
public sealed class IndexModel(OpenBook book, House house, Show show) : PageModel
{
    /// <summary>A period to choose: "2026-03", "2026-Q1", "2026", or empty for from–to.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Period { get; set; }

    /// <summary>First day of a free range.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? From { get; set; }

    /// <summary>Last day of a free range.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? To { get; set; }

    /// <summary>plain, or us-5120-17.</summary>
    [BindProperty(SupportsGet = true)]
    public string Form { get; set; } = "plain";

    /// <summary>Periods to choose from, newest first, by their kind.</summary>
    public IReadOnlyList<(Sentence Kind, IReadOnlyList<(string Value, string Text)> Periods)> Choices { get; private set; } = [];

    /// <summary>The period stated.</summary>
    public Period Asked { get; private set; }

    /// <summary>The book's first day.</summary>
    public DateOnly? FirstDay { get; private set; }

    /// <summary>The plain statement.</summary>
    public StatementView? Plain { get; private set; }

    /// <summary>The US form, for a book that answers to it.</summary>
    public UsStatement? Us { get; private set; }

    /// <summary>Losses beside the allowance, with the US form.</summary>
    public LossCheck? Loss { get; private set; }

    /// <summary>What has to be said beside it.</summary>
    public IReadOnlyList<Sentence> Notes { get; private set; } = [];

    /// <summary>What is wrong with the range asked for.</summary>
    public Sentence? Wrong { get; private set; }

    /// <summary>Forms this book has.</summary>
    public IReadOnlyList<(string Code, Sentence Text)> Forms => house.AnswersTo("us") ? [("plain", "Plain statement"), ("us-5120-17", "US report, Part I, whole gallons")] : [("plain", "Plain statement")];

    /// <summary>Address of the same statement as a file.</summary>
    public string File(string format) => $"/api/v1/statements/period?from={Show.Iso(Asked.From)}&to={Show.Iso(Asked.To)}&form={Form}&format={format}";

    /// <summary>States the period.</summary>
    public void OnGet()
    {
        var (today, household) = (book.Today, house.IsHousehold);
        if (!Forms.Any(form => form.Code == Form)) Form = "plain";
        book.Read(found =>
        {
            FirstDay = found.FirstDay;
            Choices = Periods.Of(found.FirstDay ?? today, today, show);
            Asked = Periods.Read(Period) ?? (From is { } from && To is { } to ? new Period(from, to) : new(new(today.Year, today.Month, 1), today));
            if (Period is null && From is null) Period = Periods.MonthOf(today);
            if (From is not null != To is not null && Periods.Read(Period) is null) Wrong = "Give both days of the range.";
            if (Asked.To < Asked.From) Wrong = "The last day lies before the first.";
            if (Wrong is not null) return 0;
            if (Form == "us-5120-17")
            {
                Us = UsStatement.Build(found, Asked);
                Notes = Us.Notes;
                Loss = LossCheck.Build(found, Asked);
            }
            else
            {
                var plain = PlainStatement.Build(found, Asked, ClassScheme.Default);
                Plain = StatementView.Of(plain, household);
                // A household's wine has no classes, so a remark about them would only puzzle.
                Notes = household ? [.. plain.Notes.Where(note => !note.Pattern.Contains("class", StringComparison.Ordinal))] : plain.Notes;
            }
            return 0;
        });
    }
}
