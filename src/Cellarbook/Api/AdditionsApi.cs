using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Exports;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>The additions register.</summary>
public static class AdditionsApi
{
    /// <summary>A line of the register, as answered; columns as in the CSV.</summary>
    public sealed record AdditionAnswer(long Entry, DateOnly Day, string Lot, string Vessel, string Stage, Core.Quantities.Volume LitresTreated, string Material, string Amount, string Batch)
    {
        /// <summary>Litres afterwards, which doses are counted in; left out where they are the same.</summary>
        public Core.Quantities.Volume? LitresAfter { get; init; }
        /// <summary>The time.</summary>
        public TimeOnly? Time { get; init; }
        /// <summary>Who did it.</summary>
        public string? DoneBy { get; init; }
        /// <summary>Code of the material.</summary>
        public string? Code { get; init; }
        /// <summary>E number.</summary>
        public string? ENumber { get; init; }
        /// <summary>additive, processing-aid …</summary>
        public string? Role { get; init; }
        /// <summary>Allergen.</summary>
        public string? Allergen { get; init; }
        /// <summary>The delivery.</summary>
        public string? Delivery { get; init; }
        /// <summary>True when the delivery was assumed.</summary>
        public bool? BatchAssumed { get; init; }
        /// <summary>Supplier.</summary>
        public string? Supplier { get; init; }
        /// <summary>The substance a limit speaks of.</summary>
        public string? Substance { get; init; }
        /// <summary>Its dose.</summary>
        public string? DoseMgPerLitre { get; init; }
        /// <summary>All of it so far.</summary>
        public string? TotalSoFarMgPerLitre { get; init; }
        /// <summary>The limit.</summary>
        public string? Limit { get; init; }
        /// <summary>The verdict afterwards.</summary>
        public string? Verdict { get; init; }
        /// <summary>How it is found.</summary>
        public string? Arithmetic { get; init; }
        /// <summary>Where the limit is written.</summary>
        public string? Source { get; init; }
        /// <summary>Acidity before, g/L.</summary>
        public string? AcidityBefore { get; init; }
        /// <summary>Acidity after, g/L.</summary>
        public string? AcidityAfter { get; init; }
        /// <summary>Why.</summary>
        public string? Reason { get; init; }
        /// <summary>The paper behind it.</summary>
        public string? Document { get; init; }
        /// <summary>Anything else.</summary>
        public string? Note { get; init; }

        /// <summary>A row of the core as answered.</summary>
        public static AdditionAnswer Of(AdditionRow row) => new(row.Entry, row.Day, row.Lot, row.Vessel, row.IsMust ? "must" : "wine", row.Treated, row.Material, row.Amount, row.Batch)
        {
            LitresAfter = row.After == row.Treated ? null : row.After, Time = row.Time, DoneBy = Or(row.DoneBy), Code = Or(row.Code), ENumber = Or(row.ENumber), Role = Or(row.Role), Allergen = Or(row.Allergen), Delivery = Or(row.Delivery), BatchAssumed = row.IsAssumed ? true : null, Supplier = Or(row.Supplier),
            Substance = Or(row.Substance), DoseMgPerLitre = row.Dose?.MilligramsPerLitre, TotalSoFarMgPerLitre = row.TotalSoFar?.MilligramsPerLitre, Limit = Or(row.Limit.ToString()), Verdict = Or(row.Verdict), Arithmetic = Or(row.Arithmetic.ToString()), Source = Or(row.Source),
            AcidityBefore = Or(row.AcidityBefore), AcidityAfter = Or(row.AcidityAfter), Reason = Or(row.Reason), Document = Or(row.Document), Note = Or(row.Note),
        };

        private static string? Or(string text) => text.Length > 0 ? text : null;
    }

    /// <summary>Maps the endpoint.</summary>
    public static void Map(RouteGroupBuilder api) => api.MapGet("/additions", Register)
        .WithName("additions").WithSummary("The additions register, for a lot or a period: format json, csv or xlsx.")
        .WithDescription("from and to are days, both included; left out: from the book's first day, to today. A lot's register holds what was added under its name, and before that to wine that is in it now.")
        .Produces<AdditionAnswer[]>().WithMetadata(new AlsoAs(AlsoAs.Csv, AlsoAs.Xlsx)).ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status422UnprocessableEntity);

    private static IResult Register(OpenBook open, string? lot, string? from, string? to, string? format)
    {
        var refusals = new List<Refusal>();
        var (first, last) = (Ask.Day(from, "from", refusals), Ask.Day(to, "to", refusals));
        if (first > last) refusals.Add(new(RefusalCode.NoSuchDay, "to", "The period ends before it begins."));
        if (format is not (null or "json" or "csv" or "xlsx")) refusals.Add(new(RefusalCode.UnknownWord, "format", $"“{Names.Shown(format)}” is no format. Use json, csv or xlsx."));
        if (refusals.Count > 0) return Problem.Of(refusals);
        if (!string.IsNullOrEmpty(lot) && open.Read(book => book.Now.AccountsOfLot(lot).IsEmpty)) return Problem.NotFound(RefusalCode.UnknownLot, "lot", $"There is no lot {Names.Shown(lot)}.");
        var (rows, title, about) = Rows(open, string.IsNullOrEmpty(lot) ? null : lot, first, last);
        var name = $"additions{(string.IsNullOrEmpty(lot) ? "" : "-" + string.Concat(lot.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')))}";
        using var bytes = new MemoryStream();
        switch (format)
        {
            case "csv":
                // The writer is asynchronous in form only: it writes to memory.
                AdditionsFile.CsvAsync(rows, bytes).GetAwaiter().GetResult();
                return TypedResults.Bytes(bytes.ToArray(), "text/csv; charset=utf-8", name + ".csv");
            case "xlsx":
                AdditionsFile.Xlsx(rows, about, title, bytes);
                return TypedResults.Bytes(bytes.ToArray(), AlsoAs.Xlsx, name + ".xlsx");
            default:
                return TypedResults.Ok(rows.Select(AdditionAnswer.Of).ToArray());
        }
    }

    /// <summary>The rows of a register, what it is called, and of which moment of which book it is.</summary>
    public static (IReadOnlyList<AdditionRow> Rows, string Title, AboutFacts About) Rows(OpenBook open, string? lot, DateOnly? from, DateOnly? to)
    {
        var today = open.Today;
        return open.Read(book =>
        {
            var (first, last) = (from ?? book.FirstDay ?? today, to ?? today);
            var title = $"Additions{(lot is null ? "" : $" to {lot}")}, {first:yyyy-MM-dd} to {last:yyyy-MM-dd}";
            return (AdditionsRegister.Of(book, first, last, lot), title, new AboutFacts(book.Premises?.Name ?? "", "Cellarbook", open.Head.Number, open.Head.Hash, open.Now, open.TimeZone.Id) { LetterPaper = book.Premises?.Regimes?.Contains("us") == true });
        });
    }
}
