using System.Globalization;
using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.LotFigures;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>The bench: calculators whose every number can be opened, and the derived figures of a lot.</summary>
public static class BenchApi
{
    private const int MostBytes = 1 << 16;

    /// <summary>A choice of an input.</summary>
    public sealed record ChoiceAnswer(string Code, string Label);

    /// <summary>An input of a calculator. Its standard uncertainty may be given too, under the name in <paramref name="UncertaintyName"/>.</summary>
    public sealed record InputAnswer(string Name, string Label, string Unit, double? Min, double? Max, bool Required, IReadOnlyList<ChoiceAnswer>? Choices, string? UncertaintyName, string? Note);

    /// <summary>A calculator.</summary>
    public sealed record CalculatorAnswer(string Id, string Title, string Group, string Purpose, IReadOnlyList<InputAnswer> Inputs)
    {
        /// <summary>A calculator of the core as answered.</summary>
        public static CalculatorAnswer Of(BenchCalculator calculator) => new(calculator.Id, calculator.Title.ToString(), calculator.Group.ToString(), calculator.Purpose.ToString(),
            [.. calculator.Inputs.Select(input => new InputAnswer(input.Name, input.Label.ToString(), input.Unit, input.IsChoice ? null : input.Range.Low, input.IsChoice ? null : input.Range.High, !input.Optional,
                input.IsChoice ? [.. input.Choices.Select(choice => new ChoiceAnswer(choice.Code, choice.Label.ToString()))] : null, input.IsChoice ? null : input.UncertaintyName, input.Note?.ToString()))]);
    }

    /// <summary>A figure with everything behind it.</summary>
    /// <param name="Name">Stable name with the unit in it.</param>
    /// <param name="Label">What a person reads.</param>
    /// <param name="Value">Not rounded.</param>
    /// <param name="Shown">With the decimals the method can answer for.</param>
    /// <param name="Unit">Unit of value and uncertainty.</param>
    /// <param name="Uncertainty">Standard uncertainty.</param>
    /// <param name="UncertaintyBasis">Where it comes from.</param>
    /// <param name="Method">The formula's name.</param>
    /// <param name="Source">Where the formula comes from.</param>
    /// <param name="SourceCheck">How far the source was checked: read, derived or remembered.</param>
    /// <param name="Validity">Where it holds.</param>
    /// <param name="Worked">The formula with the numbers put in.</param>
    /// <param name="Caution">What to beware of.</param>
    /// <param name="EntryField">Field of an operation that can take it.</param>
    public sealed record FigureAnswer(string Name, string Label, double Value, string Shown, string Unit, double? Uncertainty, string? UncertaintyBasis, string Method, string Source, string SourceCheck, string Validity, string Worked, string? Caution, string? EntryField)
    {
        /// <summary>The entries behind it, for a figure of a lot.</summary>
        public IReadOnlyList<ReadingAnswer>? Readings { get; init; }

        /// <summary>An explained number as answered.</summary>
        public static FigureAnswer Of(Explained figure) => new(figure.Name, figure.Label.ToString(), figure.Value, figure.Shown, figure.Unit, figure.Uncertainty, figure.UncertaintyBasis?.ToString(), figure.Method.ToString(), figure.Source.ToString(),
            JsonNamingPolicy.CamelCase.ConvertName(figure.Formula.Check.ToString()), figure.Validity.ToString(), figure.Worked, figure.Caution?.ToString(), figure.EntryField);
    }

    /// <summary>An entry behind a figure.</summary>
    public sealed record ReadingAnswer(long Entry, DateOnly Day, string What);

    /// <summary>Why a figure is not given.</summary>
    public sealed record RefusedAnswer(string Code, string Path, string Sentence, string Valid, string Source)
    {
        /// <summary>A refusal of the bench as answered, its code in the form of the API.</summary>
        public static RefusedAnswer Of(BenchRefusal refusal) => new(CodeOf(refusal), refusal.Path, refusal.Sentence.ToString(), refusal.Valid.ToString(), refusal.Source.ToString());
    }

    /// <summary>What a calculator answers.</summary>
    public sealed record BenchResult(string Id, string Title, IReadOnlyList<FigureAnswer> Results, IReadOnlyList<RefusedAnswer> Refusals);

    /// <summary>The derived figures of one place of a lot.</summary>
    public sealed record PlaceFiguresAnswer(string Vessel, string Stage, IReadOnlyList<FigureAnswer> Figures, IReadOnlyList<RefusedAnswer> CannotSay);

    /// <summary>The derived figures of a lot, place by place.</summary>
    public sealed record LotFiguresAnswer(string Code, IReadOnlyList<PlaceFiguresAnswer> Places);

    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/bench", () => TypedResults.Ok(BenchCalculators.All.Select(CalculatorAnswer.Of).ToArray()))
            .WithName("calculators").WithSummary("Every calculator of the bench with its inputs.");
        api.MapGet("/bench/{id}", (string id, HttpRequest request) => Answer(id, calculator => FromQuery(calculator, request.Query)))
            .WithName("calculate").WithSummary("Work a calculator out, its inputs in the query.")
            .WithDescription("Numbers are decimal with a point; choices by their code. The unit is part of the name. Figures that can't be given stand in refusals; when none can, the answer is 422.")
            .Produces<BenchResult>().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapPost("/bench/{id}", async (string id, HttpRequest request) => await Read(request) is { } body ? Answer(id, _ => FromJson(body)) : Unreadable())
            .WithName("calculateByBody").WithSummary("Work a calculator out, its inputs as one JSON object of numbers and codes.").Accepts<Dictionary<string, object>>("application/json")
            .Produces<BenchResult>().ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/lots/{code}/figures", Figures)
            .WithName("lotFigures").WithSummary("Derived figures of a lot: corrected gravity, strength estimated, measured and stated, potential strength, molecular SO2, how gravity moves.")
            .WithDescription("Each with its formula, the worked line and the entries behind it; what can't be said stands in cannotSay with what is missing.")
            .Produces<LotFiguresAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static IResult Figures(string code, OpenBook book, DateOnly? on)
    {
        // A blank or slash inside a code comes through the address escaped once.
        var lot = Ask.Code(code);
        return book.Read(found => PlaceFigures.OfLot(found, lot, on)) is { } places
            ? TypedResults.Ok(new LotFiguresAnswer(lot, [.. places.Select(place => new PlaceFiguresAnswer(place.Account.Place, place.Account.Section == Section.Must ? "must" : "wine",
                [.. place.Figures.Select(figure => FigureAnswer.Of(figure.Result) with { Readings = [.. figure.Readings.Select(reading => new ReadingAnswer(reading.Entry, reading.Day, reading.What.ToString()))] })],
                [.. place.CannotSay.Select(RefusedAnswer.Of)]))]))
            : Problem.NotFound(RefusalCode.UnknownLot, "code", $"There is no lot {Names.Shown(lot)}.");
    }

    private static IResult Answer(string id, Func<BenchCalculator, BenchInputs> read)
    {
        if (BenchCalculators.Find(id) is not { } calculator) return Problems(StatusCodes.Status404NotFound, "Not found", [new("not_found", "id", $"There is no calculator {Names.Shown(id)}. GET /api/v1/bench lists them.", "", "")]);
        var answer = calculator.Answer(read(calculator));
        if (answer.IsRefused) return Problems(StatusCodes.Status422UnprocessableEntity, "Cannot say", [.. answer.Refusals.Select(RefusedAnswer.Of)]);
        return TypedResults.Ok(new BenchResult(calculator.Id, calculator.Title.ToString(), [.. answer.Results.Select(FigureAnswer.Of)], [.. answer.Refusals.Select(RefusedAnswer.Of)]));
    }

    private static BenchInputs FromQuery(BenchCalculator calculator, IQueryCollection query)
    {
        var inputs = BenchInputs.None;
        foreach (var (name, values) in query)
        {
            // A number written twice, or not as one, goes on as text, which the calculator refuses at its name.
            var text = values.Count == 1 ? values[0] ?? "" : string.Join(",", values!);
            var isChoice = calculator.Inputs.Any(input => input.Name == name && input.IsChoice);
            inputs = !isChoice && values.Count == 1 && double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
                ? inputs.With(name, number)
                : inputs.With(name, text);
        }
        return inputs;
    }

    private static BenchInputs FromJson(JsonElement body)
    {
        var inputs = BenchInputs.None;
        foreach (var member in body.EnumerateObject())
            inputs = member.Value.ValueKind switch
            {
                JsonValueKind.Number => inputs.With(member.Name, member.Value.GetDouble()),
                JsonValueKind.String => inputs.With(member.Name, member.Value.GetString()!),
                JsonValueKind.Null => inputs,
                _ => inputs.With(member.Name, member.Value.GetRawText()),
            };
        return inputs;
    }

    private static async Task<JsonElement?> Read(HttpRequest request)
    {
        if (await Body.Read(request, MostBytes) is not { } bytes) return null;
        try
        {
            using var document = JsonDocument.Parse(bytes, new() { MaxDepth = 8, AllowDuplicateProperties = false });
            return document.RootElement.ValueKind == JsonValueKind.Object ? document.RootElement.Clone() : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IResult Unreadable() => Problems(StatusCodes.Status400BadRequest, "Unreadable", [new("unreadable", "", "Send one small JSON object with the inputs by name, each once.", "", "")]);

    private static string CodeOf(BenchRefusal refusal) => refusal.Code.Replace('-', '_');

    private static IResult Problems(int status, string title, RefusedAnswer[] refusals) => TypedResults.Problem(statusCode: status, title: title, detail: refusals[0].Sentence,
        extensions: new Dictionary<string, object?> { ["code"] = refusals[0].Code, ["path"] = refusals[0].Path, ["refusals"] = refusals });
}
