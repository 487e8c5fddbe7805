using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Xunit;

namespace Cellarbook.Core.Tests.Diary;

/// <summary>
/// A cellar diary that is held against the book as it goes. What is done is written as the JSON that the API takes; "day" may be left out and is
/// then the day last named with <see cref="On"/>. After each thing done the laws that hold always are checked, and that the book folded anew
/// from its entries is the same book.
/// </summary>
public sealed class Check
{
    private readonly Dictionary<string, KnownEvent> events = new(StringComparer.Ordinal);
    private DateOnly day = new(2026, 3, 1);
    private DateOnly today = new(2030, 1, 1);
    private Trial? last;

    public Check() => Book = new Book.Book { FindEvent = events.GetValueOrDefault, KnowsContact = contact => contact == 1 };

    public Book.Book Book { get; }

    /// <summary>What was last recorded.</summary>
    public Trial Last => last ?? throw new InvalidOperationException("Nothing was done yet.");

    /// <summary>Number of the last entry.</summary>
    public long Number => Book.LastNumber;

    /// <summary>A vessel is made; without litres its capacity is not known.</summary>
    public Check Vessel(string code, string? litres = null) =>
        Does($$"""{"kind":"vessel","code":"{{code}}"{{(litres is null ? "" : ",\"capacityLitres\":" + litres)}}}""");

    /// <summary>The day of what follows.</summary>
    public Check On(string day)
    {
        this.day = Day(day);
        return this;
    }

    /// <summary>What today is, for what follows.</summary>
    public Check Today(string day)
    {
        today = Day(day);
        return this;
    }

    /// <summary>Done and recorded.</summary>
    public Check Does(string json)
    {
        var operation = Read(json, out var refusals);
        Assert.Empty(refusals.Select(Say));
        // What is stored reads back as the same operation: one text per meaning.
        var text = OperationJson.Write(operation!);
        Assert.Equal(text, OperationJson.Write(OperationJson.Stored(text)));
        return Accept(Book.Propose(operation!, today));
    }

    /// <summary>Refused, with this code first; the book stays as it was.</summary>
    public Check Refuses(RefusalCode code, string json, string? path = null, params long[] entries)
    {
        var first = Refusals(json) is [var one, ..] ? one : null;
        Assert.True(first is not null, $"{json} was not refused.");
        Assert.Equal((code, path ?? first.Path), (first.Code, first.Path));
        Assert.False(string.IsNullOrWhiteSpace(first.Sentence.ToString()));
        if (entries.Length > 0) Assert.Equal(entries, first.Entries);
        return this;
    }

    /// <summary>Why it would be refused; nothing is recorded.</summary>
    public IReadOnlyList<Refusal> Refusals(string json)
    {
        var before = CellarPicture.Of(Book);
        var operation = Read(json, out var refusals);
        if (operation is null) return refusals;
        var trial = Book.Propose(operation, today);
        Assert.Equal(before, CellarPicture.Of(Book));
        return trial.Refusals;
    }

    /// <summary>A journal file comes in.</summary>
    public Check Imports(string csv)
    {
        var trial = Csv.Import(Book, csv, today);
        Assert.Empty(trial.Refusals.Select(Say));
        foreach (var entry in trial.Entries) events.Add(entry.EventId!, new(entry.Number, (Imported)entry.Operation!));
        return Accept(trial);
    }

    /// <summary>A journal file is refused whole, with this code first.</summary>
    public Check RefusesImport(RefusalCode code, string csv, string? path = null)
    {
        var first = Csv.Import(Book, csv, today).Refusals is [var one, ..] ? one : null;
        Assert.True(first is not null, "The file was not refused.");
        Assert.Equal((code, path ?? first.Path), (first.Code, first.Path));
        return this;
    }

    /// <summary>The lot lies in the vessel, must or wine, with so many litres now.</summary>
    public Check Holds(string lot, string vessel, string litres)
    {
        Assert.Equal(litres, Lying(Book.Now, lot, vessel).Aggregate(Volume.None, (sum, place) => sum + place.Volume).Litres);
        return this;
    }

    /// <summary>The lot lay in the vessel with so many litres at the end of a day.</summary>
    public Check Held(string day, string lot, string vessel, string litres)
    {
        Assert.Equal(litres, Lying(Book.AsOf(Day(day)), lot, vessel).Aggregate(Volume.None, (sum, place) => sum + place.Volume).Litres);
        return this;
    }

    /// <summary>So many bottles of a bottling on a shelf.</summary>
    public Check Shelf(string bottling, long bottles, string shelf = Account.Unplaced)
    {
        Assert.Equal(bottles, Book.Now.At(Account.Bottled(bottling, shelf)).Bottles.Bottles);
        return this;
    }

    /// <summary>The wine of a lot in a vessel stands at this strength ("none" when unstated) and kind.</summary>
    public Check Stands(string lot, string vessel, string abv, ProductKind kind = ProductKind.Still) => StandsAt(Account.Bulk(lot, vessel), abv, kind);

    /// <summary>A bottling stands at this strength and kind.</summary>
    public Check BottlesStand(string bottling, string abv, ProductKind kind = ProductKind.Still, string shelf = Account.Unplaced) =>
        StandsAt(Account.Bottled(bottling, shelf), abv, kind);

    /// <summary>The last entry's postings, as "CATEGORY from > to quantity".</summary>
    public Check Posted(params string[] postings)
    {
        Assert.Equal(postings, Last.Entries.SelectMany(entry => entry.Deeds).SelectMany(deed => deed.Postings).Select(Say));
        return this;
    }

    /// <summary>The last entry was given these flags (others aside from "capacity_unknown" too would show).</summary>
    public Check Flagged(params string[] codes)
    {
        Assert.Equal(codes.Order(), Last.Flags.Select(flag => flag.Code).Where(code => code != "capacity_unknown").Distinct().Order());
        return this;
    }

    /// <summary>Entries whose measurement no longer agrees.</summary>
    public Check NoLongerAgree(params long[] entries)
    {
        Assert.Equal(entries, Book.Disagreements.Select(disagreement => disagreement.Entry));
        return this;
    }

    /// <summary>
    /// What a place carries of a substance, in milligrams: added in must and in wine, what it stands at, and the highest dose any part had, in mg/L.
    /// </summary>
    public Check Carries(Account account, string substance, string inMust, string inWine, string standing, string highest, Analysed analysed = Analysed.None)
    {
        var dose = Book.Now.At(account).Carried?.Of(Core.Limits.Substances.Find(substance)!);
        Assert.Equal((inMust, inWine, standing, highest, analysed), (dose?.AddedInMust.Milligrams ?? "0", dose?.AddedInWine.Milligrams ?? "0", dose?.Standing.Milligrams ?? "0", dose?.Highest.MilligramsPerLitre ?? "0", dose?.HowMuchAnalysed ?? Analysed.None));
        return this;
    }

    /// <summary>So much of a delivery lies in store, in the unit of its material (mg, µL or pieces).</summary>
    public Check InStore(string material, string delivery, long units)
    {
        Assert.Equal(units, Book.Now.At(Account.Stores(material, delivery)).Material.Units);
        return this;
    }

    /// <summary>Origins of what lies there, as "variety vintage: parts in 10⁻¹²".</summary>
    public Check ComesFrom(Account account, params string[] shares)
    {
        Assert.Equal(shares, Book.Now.At(account).Origin.Shares.Select(share => $"{share.Origin}: {share.Parts}"));
        return this;
    }

    /// <summary>A line of the plain statement of a period, in litres; nil when there is no such line.</summary>
    public Check States(string from, string to, Section section, string wine, string category, Direction direction, string litres)
    {
        var statement = PlainStatement.Build(Book, new(Day(from), Day(to)), ClassScheme.Default);
        var line = statement.Lines.SingleOrDefault(line => line.Section == section && line.Class == wine && (line.Category?.Code ?? "") == category && line.Direction == direction);
        Assert.Equal(litres, (line?.Volume ?? Volume.None).Litres);
        return this;
    }

    private Check StandsAt(Account account, string abv, ProductKind kind)
    {
        var standing = Book.Now.At(account).Standing;
        Assert.Equal((kind, abv), (standing.Kind, standing.Strength?.Percent ?? "none"));
        return this;
    }

    private static IEnumerable<Place> Lying(Cellar cellar, string lot, string vessel) =>
        cellar.PlacesOfLot(lot).Where(place => place.Account.Place == vessel);

    private Check Accept(Trial trial)
    {
        Assert.Empty(trial.Refusals.Select(Say));
        last = trial;
        Book.Accept(trial);
        Always.Holds(Book);
        return this;
    }

    private Operation? Read(string json, out List<Refusal> refusals)
    {
        refusals = [];
        // A broken text is handed on as it is.
        JsonNode? node = null;
        try { node = JsonNode.Parse(json); }
        catch (System.Text.Json.JsonException) { }
        catch (ArgumentException) { }
        if (node is JsonObject body) Date(body);
        return OperationJson.Read(Encoding.UTF8.GetBytes(node is null ? json : node.ToJsonString(OperationJson.Options)), refusals);
    }

    private void Date(JsonObject body)
    {
        if (!body.ContainsKey("day")) body["day"] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        foreach (var write in body["write"] is JsonArray several ? [.. several] : new[] { body["write"] })
            if (write is JsonObject inner) Date(inner);
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Say(Refusal refusal) => $"{refusal.Code} {refusal.Row} {refusal.Path}: {refusal.Sentence}";

    private static string Say(Posting posting) => string.Create(CultureInfo.InvariantCulture,
        $"{posting.Category} {posting.From} > {posting.To} {(posting.Bottles.IsPositive ? posting.Bottles + " bottles" : posting.Weight.Grams > 0 ? posting.Weight : posting.MaterialUnit is { } unit ? $"{posting.Material.Units} {unit}" : posting.Volume)}");
}
