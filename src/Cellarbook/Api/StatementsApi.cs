using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;
using Cellarbook.Exports;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>Period statements in every form, from one value; what is on hand on a day; the yearly loss check.</summary>
public static class StatementsApi
{
    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        var group = api.MapGroup("/statements");
        group.MapGet("/period", Period).WithName("statement").WithSummary("A period's statement: form plain or us-5120-17, format json, csv or xlsx.")
            .WithDescription("from and to are days, both included. The forms eu-register and uk are not built yet and answer 422.")
            .Produces<StatementAnswer>().WithMetadata(new AlsoAs(AlsoAs.Csv, AlsoAs.Xlsx)).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        group.MapGet("/lots", Lots).WithName("lotsOnHand").WithSummary("What is on hand on a day, as CSV: section, class, lot, litres, bottles.").Produces<string>(contentType: "text/csv");
        group.MapGet("/loss-check", Losses).WithName("lossCheck").WithSummary("What was lost of still wine in bulk over a period, beside the allowance.")
            .WithDescription("opening, received, produced, gain and lost, with the entries behind each, and the allowance rounded down to a whole millilitre. format json or csv (kind, litres).")
            .Produces<LossAnswer>().WithMetadata(new AlsoAs(AlsoAs.Csv)).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/accounts/lots/{**code}", (string code, OpenBook open, string? from, string? to) => Account(open, code, from, to, bottling: false))
            .WithName("lotAccount").WithSummary("A lot's own small account: in by kind, out by kind, what is left, each with its entries.").Produces<AccountAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/accounts/bottlings/{**code}", (string code, OpenBook open, string? from, string? to) => Account(open, code, from, to, bottling: true))
            .WithName("bottlingAccount").WithSummary("A bottling's own small account.").Produces<AccountAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    /// <summary>A figure of the loss check, with the entries behind it.</summary>
    public sealed record LossFigureAnswer(string Kind, Core.Quantities.Volume Litres, IReadOnlyList<long> Entries);

    /// <summary>The loss check.</summary>
    public sealed record LossAnswer(DateOnly From, DateOnly To, IReadOnlyList<LossFigureAnswer> Figures, Core.Quantities.Volume AllowanceLitres, bool Over, string Source);

    /// <summary>A line of a small account.</summary>
    public sealed record AccountLineAnswer(string Direction, string Category, string Other, Core.Quantities.Volume Litres, Core.Quantities.BottleCount? Bottles, IReadOnlyList<long> Entries);

    /// <summary>A small account.</summary>
    public sealed record AccountAnswer(string Code, DateOnly From, DateOnly To, Core.Quantities.Volume OpeningLitres, Core.Quantities.Volume InLitres, Core.Quantities.Volume OutLitres, Core.Quantities.Volume LeftLitres, Core.Quantities.BottleCount? LeftBottles, IReadOnlyList<AccountLineAnswer> Lines, IReadOnlyList<AccountLineAnswer> Within);

    /// <summary>A line of the plain statement.</summary>
    public sealed record LineAnswer(string Section, string Class, string? Category, string Direction, Core.Quantities.Volume Litres, Core.Quantities.BottleCount? Bottles);

    /// <summary>A figure of the US form.</summary>
    public sealed record FigureAnswer(string Section, string Class, string Line, string Label, Core.Quantities.Volume Litres, decimal WineGallons, long WineGallonsWhole);

    /// <summary>A statement.</summary>
    public sealed record StatementAnswer(string Form, DateOnly From, DateOnly To, DateOnly StatedFrom, long LastEntry, string Hash, IReadOnlyList<LineAnswer>? Lines, IReadOnlyList<FigureAnswer>? Figures, IReadOnlyList<string> Notes);

    /// <summary>The statement document of a period, as every rendering has it.</summary>
    public static StatementDocument Document(OpenBook open, Book book, Period period, bool us) => StatementDocument.Of(book, period, us,
        new AboutFacts(book.Premises?.Name ?? "", "Cellarbook", open.Head.Number, open.Head.Hash, open.Now, open.TimeZone.Id) { LetterPaper = us });

    private static IResult Period(OpenBook open, string? from, string? to, string? form, string? format)
    {
        var refusals = new List<Refusal>();
        if (Span(from, to, refusals) is var period && form is not (null or "plain" or "us-5120-17")) refusals.Add(new(RefusalCode.UnknownWord, "form", form is "eu-register" or "uk" ? (Sentence)$"The form {form} is not built yet. Use plain or us-5120-17." : (Sentence)$"“{Names.Shown(form)}” is no form. Use plain or us-5120-17."));
        if (format is not (null or "json" or "csv" or "xlsx")) refusals.Add(new(RefusalCode.UnknownWord, "format", $"“{Names.Shown(format)}” is no format. Use json, csv or xlsx."));
        if (refusals.Count > 0) return Problem.Of(refusals);
        var us = form == "us-5120-17";
        var name = $"statement-{(us ? "us-5120-17" : "plain")}-{period.From:yyyy-MM-dd}-{period.To:yyyy-MM-dd}";
        return format switch
        {
            "csv" => File(open, name + ".csv", "text/csv; charset=utf-8", (book, stream) => StatementCsv.WriteAsync(Document(open, book, period, us), stream)),
            "xlsx" => File(open, name + ".xlsx", AlsoAs.Xlsx, (book, stream) => { StatementWorkbook.Write(Document(open, book, period, us), stream); return Task.CompletedTask; }),
            _ => TypedResults.Ok(open.Read(book => Answer(Document(open, book, period, us)))),
        };
    }

    private static IResult Lots(OpenBook open, string? on)
    {
        var refusals = new List<Refusal>();
        var day = Ask.Day(on, "on", refusals) ?? open.Today;
        return refusals.Count > 0 ? Problem.Of(refusals)
            : File(open, $"lots-{day:yyyy-MM-dd}.csv", "text/csv; charset=utf-8", (book, stream) => StatementCsv.LotsAsync(LotStatement.Build(book, day, ClassScheme.Default).Lines, stream));
    }

    private static IResult Losses(OpenBook open, string? from, string? to, string? format)
    {
        var refusals = new List<Refusal>();
        var period = Span(from, to, refusals);
        if (format is not (null or "json" or "csv")) refusals.Add(new(RefusalCode.UnknownWord, "format", $"“{Names.Shown(format)}” is no format. Use json or csv."));
        if (refusals.Count > 0) return Problem.Of(refusals);
        if (format == "csv") return File(open, $"loss-check-{period.From:yyyy-MM-dd}-{period.To:yyyy-MM-dd}.csv", "text/csv; charset=utf-8", (book, stream) => StatementCsv.LossesAsync(LossCheck.Build(book, period), stream));
        return TypedResults.Ok(open.Read(book =>
        {
            var check = LossCheck.Build(book, period);
            return new LossAnswer(check.Plain.Stated.From, check.Plain.Stated.To, [.. check.Figures.Select(figure => new LossFigureAnswer(figure.Name, figure.Volume, figure.Entries))], check.Allowance, check.IsOver, UsForm.Current.LossSource);
        }));
    }

    private static IResult Account(OpenBook open, string code, string? from, string? to, bool bottling)
    {
        var refusals = new List<Refusal>();
        var period = string.IsNullOrEmpty(from) && string.IsNullOrEmpty(to) ? (Period?)null : Span(from, to, refusals);
        if (refusals.Count > 0) return Problem.Of(refusals);
        return open.Read<IResult>(book =>
        {
            if (bottling ? book.Now.Bottling(code) is null : book.Now.AccountsOfLot(code).IsEmpty)
                return Problem.NotFound(bottling ? RefusalCode.UnknownBottling : RefusalCode.UnknownLot, "code", bottling ? (Sentence)$"There is no bottling {Names.Shown(code)}." : $"There is no lot {Names.Shown(code)}.");
            var account = bottling ? LotAccount.OfBottling(book, code, period) : LotAccount.OfLot(book, code, period);
            return TypedResults.Ok(new AccountAnswer(code, account.Period.From, account.Period.To, account.Opening, account.In, account.Out, account.Left, bottling ? account.LeftBottles : null, [.. account.Lines.Select(Line)], [.. account.Within.Select(Line)]));
        });

        static AccountLineAnswer Line(LotAccountLine line) => new(line.Direction.ToString().ToLowerInvariant(), line.Category.Code, line.Other, line.Volume, line.Bottles.Bottles == 0 ? null : line.Bottles, line.Entries);
    }

    private static Period Span(string? from, string? to, List<Refusal> refusals)
    {
        var (first, last) = (Ask.Day(from, "from", refusals), Ask.Day(to, "to", refusals));
        if (string.IsNullOrEmpty(from)) refusals.Add(new(RefusalCode.Missing, "from", "Give the first day of the period."));
        if (string.IsNullOrEmpty(to)) refusals.Add(new(RefusalCode.Missing, "to", "Give the last day of the period."));
        if (first > last) refusals.Add(new(RefusalCode.NoSuchDay, "to", "The period ends before it begins."));
        return new(first ?? default, last ?? default);
    }

    /// <summary>Renders into memory while the book stands still, then sends.</summary>
    private static Microsoft.AspNetCore.Http.HttpResults.FileContentHttpResult File(OpenBook open, string name, string type, Func<Book, Stream, Task> write) =>
        TypedResults.Bytes(open.Read(book =>
        {
            using var bytes = new MemoryStream();
            // The writers are asynchronous in form only: they write to memory.
            write(book, bytes).GetAwaiter().GetResult();
            return bytes.ToArray();
        }), type, name);

    private static StatementAnswer Answer(StatementDocument document) => new(document.Form, document.Plain.Asked.From, document.Plain.Asked.To, document.Plain.Stated.From, document.About.LastEntry, document.About.Hash,
        document.Us is not null ? null : [.. document.Plain.Lines.Select(line => new LineAnswer(line.Section.Word(), line.Class, line.Category?.Code, line.Direction.ToString().ToLowerInvariant(), line.Volume, line.Section == Section.Bottled ? line.Bottles : null))],
        document.Us is null ? null : [.. document.Us.Figures.Select(figure => new FigureAnswer(figure.Section.Name, figure.Class, figure.Line.Line, figure.Line.Label.ToString(), figure.Volume, decimal.Parse(UsForm.Current.Gallons(figure.Volume), System.Globalization.CultureInfo.InvariantCulture), figure.WholeGallons))],
        [.. document.Notes.Select(note => note.ToString())]);
}
