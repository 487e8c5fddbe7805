using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Rules;

/// <summary>Limit sets: which are in force, their rows and sources, and those of the maker's own.</summary>
public sealed class IndexModel(OpenBook book) : PageModel
{
    private const long MostBytes = 1 << 20;

    /// <summary>The set whose rows are shown; null for the list.</summary>
    public LimitSet? Shown { get; private set; }

    /// <summary>Every set, in force or not.</summary>
    public IReadOnlyList<(LimitSet Set, bool InForce)> Sets { get; private set; } = [];

    /// <summary>What was wrong with the last upload.</summary>
    public IReadOnlyList<Refusal> Refusals { get; private set; } = [];

    /// <summary>The code last typed.</summary>
    public string? Code { get; private set; }

    /// <summary>The name last typed.</summary>
    public string? Name { get; private set; }

    /// <summary>What it was said to be.</summary>
    public string? As { get; private set; }

    /// <summary>Whose it was said to be.</summary>
    public string? Who { get; private set; }

    /// <summary>The last day typed.</summary>
    public string? Expires { get; private set; }

    /// <summary>The rows last typed.</summary>
    public string Rows { get; private set; } = Example;

    /// <summary>True after a set was stated.</summary>
    public bool Stated { get; private set; }

    /// <summary>What the form begins with.</summary>
    public const string Example = "substances,basis,kind,value,unit,colour,source,seen\nso2,total_measured,max,120,mg/L,red,house rule,text\n";

    /// <summary>Columns a set may have.</summary>
    public static string Columns => string.Join(", ", LimitSetReader.Columns);

    /// <summary>Shows the list, or a set.</summary>
    public IActionResult OnGet(string? set, bool stated = false)
    {
        Stated = stated;
        Fill(set);
        return set is not null && Shown is null ? this.Missing($"There is no limit set {Core.Operations.Names.Shown(set)}.", "/rules", "All limit sets") : Page();
    }

    /// <summary>Takes a set of the maker's own.</summary>
    public async Task<IActionResult> OnPost(string? code, string? name, string? @as, string? who, string? expires, string? rows, IFormFile? file)
    {
        (Code, Name, As, Who, Expires, Rows) = (code, name, @as, who, expires, rows ?? "");
        var refusals = new List<Refusal>();
        if (file is { Length: > 0 })
        {
            if (file.Length > MostBytes) refusals.Add(new(RefusalCode.TooLarge, "rows", "A limit set has at most 1 MB."));
            else
            {
                using var reader = new StreamReader(file.OpenReadStream(), new UTF8Encoding(false));
                Rows = await reader.ReadToEndAsync();
            }
        }
        var last = Api.Ask.Day(expires.OrNull(), "expires", refusals);
        var lines = LimitSetReader.Lines(Rows, out var faults);
        refusals.AddRange(faults.Select(fault => new Refusal(RefusalCode.LimitsUnreadable, fault.Column, Sentence.Verbatim(fault.ToString())) { Row = fault.Row }));
        if (refusals.Count == 0)
        {
            var operation = new StateLimits { Day = book.Today, Code = code?.Trim(), Name = name.OrNull(), As = @as, Who = who.OrNull(), Expires = last, Rows = lines };
            var recorded = book.Record(operation, book.ActorOf(User));
            if (recorded.Refusals.Count == 0) return RedirectToPage(new { stated = true });
            refusals.AddRange(recorded.Refusals);
        }
        Refusals = refusals;
        Fill(null);
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    private void Fill(string? code)
    {
        Sets = book.Read<IReadOnlyList<(LimitSet, bool)>>(found =>
        {
            var inForce = found.LimitsInForce(book.Today).ToHashSet();
            // A packet holds for the wine that something of it is in, and for no other.
            return [.. found.OwnLimits.Concat(found.PacketLimits).Concat(LawSets.All).Select(set => (set, inForce.Contains(set)))];
        });
        Shown = Sets.Select(pair => pair.Set).FirstOrDefault(set => set.Code == code);
    }
}
