using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Stores;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

public sealed partial class Told
{
    private Telling Read(Measure measure)
    {
        var readings = new List<Sentence>();
        if (measure.Gravity is { } gravity) readings.Add(Sentence.Verbatim(show.Reading(gravity.Text)));
        if (measure.Oechsle is { } oechsle) readings.Add(Sentence.Verbatim(show.Reading(oechsle.Text) + "\u00A0°Oe"));
        if (measure.Brix is { } brix) readings.Add(Sentence.Verbatim(show.Reading(brix.Text) + "\u00A0°Bx"));
        if (measure.Celsius is { } celsius) readings.Add(Sentence.Verbatim(show.Temperature(celsius.Text)));
        if (measure.Ph is { } ph) readings.Add(Sentence.Verbatim("pH\u00A0" + show.Reading(ph.Text)));
        if (measure.TaGramsPerLitre is { } ta) readings.Add($"TA\u00A0{show.Reading(ta.Text)}\u00A0g/L");
        if (measure.FreeSo2MgPerLitre is { } free) readings.Add($"free SO₂\u00A0{show.Reading(free.Text)}\u00A0mg/L");
        if (measure.TotalSo2MgPerLitre is { } total) readings.Add($"total SO₂\u00A0{show.Reading(total.Text)}\u00A0mg/L");
        if (measure.VaGramsPerLitre is { } va) readings.Add($"VA\u00A0{show.Reading(va.Text)}\u00A0g/L");
        if (measure.SugarGramsPerLitre is { } sugar) readings.Add($"sugar\u00A0{show.Reading(sugar.Text)}\u00A0g/L");
        if (measure.AbvFound is { } abv) readings.Add($"found\u00A0{show.Reading(abv.Text)}\u00A0%\u00A0vol");
        if (measure.MalicGramsPerLitre is { } malic) readings.Add($"malic\u00A0{show.Reading(malic.Text)}\u00A0g/L");
        if (measure.Malolactic is { } state) readings.Add(Words.Malolactic(state));
        return new(measure.SampleLitres is { } sample ? Sentence.Of($"Read, sample of {show.Volume(sample)} drawn") : "Read", Sentence.Join(" · ", readings));
    }

    /// <summary>A material by its name in the catalogue; one of the maker's own, or free text, as it was written.</summary>
    private static Sentence Named(string? material) => Catalogue.Generic.FirstOrDefault(known => known.Code == material) is { } known ? Sentence.Seed(known.Name) : Verbatim(material);

    private Sentence Item(Add.Item item) => Join(
    [
        Join([Named(item.Material), Verbatim(item.Grams is { } grams ? show.Mass(grams) : ""), Verbatim(item.Millilitres is { } millilitres ? show.Mark(millilitres.Text) + "\u00A0mL" : ""), item.Pieces is { } pieces ? pieces.Text == "1" ? Sentence.Of("1\u00A0piece") : $"{show.Reading(pieces.Text)}\u00A0pieces" : ""], " "),
        Verbatim(item.GramsPerHectolitre is { } rate ? show.Reading(rate.Text) + "\u00A0g/hL" : ""),
        Verbatim(item.MgPerLitre is { } milligrams ? show.Reading(milligrams.Text) + "\u00A0mg/L" : ""),
        item.RiseLitres is { } rise ? Sentence.Of($"raised it by {show.Volume(rise)}") : "",
        item.Batch is { Length: > 0 } batch ? Sentence.Of($"batch {batch}") : "",
    ]);

    private Sentence Culture(Pitch.Culture culture) => Join(
    [
        Join([Verbatim(culture.Name), Verbatim(culture.Grams is { } grams ? show.Mass(grams) : ""), Verbatim(culture.Millilitres is { } millilitres ? show.Mark(millilitres.Text) + "\u00A0mL" : ""), culture.Packets is { } packets ? packets.Text == "1" ? Sentence.Of("1\u00A0packet") : $"{show.Reading(packets.Text)}\u00A0packets" : ""], " "),
        culture.What == "malolactic" ? "malolactic" : "",
        culture.Batch is { Length: > 0 } batch ? Sentence.Of($"batch {batch}") : "",
    ]);

    private Sentence Parts(params (IReadOnlyList<Posting> Postings, string Category, Sentence Word)[] parts) =>
        Join(parts.Select(part => Sum(part.Postings, part.Category) is { IsPositive: true } sum ? Sentence.Of($"{show.Volume(sum)} {part.Word}") : ""));

    private Sentence Into(IReadOnlyList<Posting> postings, string category) =>
        Join(postings.Where(posting => posting.Category.Code == category).Select(posting => Sentence.Of($"{show.Volume(posting.Volume)} of {posting.To.Name} {Words.In(posting.To.Place)}")));

    private Sentence Fruit(IReadOnlyList<Posting> postings)
    {
        var weight = postings.Where(posting => posting.From.Section == Section.Fruit).Aggregate(default(FruitWeight), (sum, posting) => sum + posting.Weight);
        return weight.Grams == 0 ? Sentence.Empty : $" {show.Weight(weight)} of fruit";
    }

    /// <summary>A place among moves: the vessel alone when all is of one lot, else lot and vessel.</summary>
    private static Sentence Place(Account account, Posting[] moves)
    {
        var oneLot = moves.SelectMany(posting => new[] { posting.From.Name, posting.To.Name }).Distinct().Count() == 1;
        var vessel = account.Place == Account.Unplaced ? "no named vessel" : Sentence.Verbatim(account.Place);
        return oneLot ? vessel : account.Place == Account.Unplaced ? Sentence.Verbatim(account.Name) : $"{account.Name} in {vessel}";
    }

    private Sentence Stated(IEnumerable<Posting> postings) =>
        postings.FirstOrDefault(posting => posting.Strength is not null && posting.To.Section.IsWine())?.Strength is { } strength ? Sentence.Of($" at {show.Strength(strength)}") : "";

    /// <summary>", lees 0.5 L, shrinkage 0.1 L": what was lost, by kind, but for the kinds named.</summary>
    private Sentence Losses(IReadOnlyList<Posting> postings, params string[] but)
    {
        var lost = postings.Where(posting => posting.From.IsStock && !posting.To.IsStock && posting.To.Section != Section.Process && posting.From.Section != Section.Fruit && !but.Contains(posting.Category.Code))
            .GroupBy(posting => posting.Category).Select(group => Sentence.Of($"{Words.PlainCategory(group.Key):small} {show.Volume(group.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))}")).ToArray();
        return lost.Length == 0 ? Sentence.Empty : $"; {Sentence.Join(", ", lost)}";
    }

    private Sentence Difference(IReadOnlyList<Posting> postings)
    {
        if (postings.Count == 0) return ", as in the book";
        var posting = postings[0];
        return posting.To.IsStock ? Sentence.Of($", {show.Volume(posting.Volume)} more than in the book") : $", {show.Volume(posting.Volume)} less than in the book";
    }

    /// <summary>What left or came, summed: bottles with their code, else volume, else weight.</summary>
    private Sentence Amount(IReadOnlyList<Posting> postings)
    {
        var bottles = postings.Where(posting => posting.Bottles.IsPositive).GroupBy(posting => posting.From.Section == Section.Bottled ? posting.From.Name : posting.To.Name)
            .Select(group => Sentence.Of($"{show.Bottles(group.Aggregate(default(BottleCount), (sum, posting) => sum + posting.Bottles))} of {group.Key}"));
        var volumes = postings.Where(posting => !posting.Bottles.IsPositive && posting.Volume.IsPositive).GroupBy(posting => posting.From.IsStock ? posting.From : posting.To)
            .Select(group => Sentence.Verbatim(show.Volume(group.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))));
        var weights = postings.Where(posting => posting.Weight.Grams > 0).Select(posting => Sentence.Of($"{show.Weight(posting.Weight)} of {posting.From.Name}"));
        return Join(bottles.Concat(volumes).Concat(weights));
    }

    /// <summary>What a journal file brought in: the kinds of its postings.</summary>
    private Sentence Kinds(IReadOnlyList<Posting> postings) => postings.Count == 0
        ? "Something added or done that moves nothing"
        : Sentence.Join("; ", postings.GroupBy(posting => posting.Category).Select(group => Sentence.Of($"{Words.PlainCategory(group.Key)} {Amount([.. group])}")));

    private static Volume Sum(IEnumerable<Posting> postings, string category) => postings.Where(posting => posting.Category.Code == category).Aggregate(Volume.None, (sum, posting) => sum + posting.Volume);

    private static Sentence Verbatim(string? text) => Sentence.Verbatim(text ?? "");

    private static Sentence Join(IEnumerable<Sentence> parts, string by = ", ") => Sentence.Join(by, parts);
}
