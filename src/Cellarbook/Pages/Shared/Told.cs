using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>What was done, as a cellar diary says it, and the readings and additions that stand beside it. Plain text both.</summary>
public sealed record Telling(Sentence What, Sentence? More = null)
{
    /// <summary>Readings and additions beside it; nothing said where there are none.</summary>
    public Sentence Beside => More ?? Sentence.Empty;
}

/// <summary>Tells entries in words.</summary>
public sealed partial class Told(Show show)
{
    /// <summary>What a deed did.</summary>
    public Telling Of(Deed deed) => deed.TakesBack is { } taken ? new($"Entry {taken} taken back") : Of(deed.Operation, deed.Postings);

    /// <summary>What an operation did, with the postings it made; without an operation, what a journal file says by its kinds.</summary>
    public Telling Of(Operation? operation, IReadOnlyList<Posting> postings) => operation switch
    {
        Open => new("Brought forward"),
        Receive receive => Received(receive),
        MakeUp => new($"Made up: {Parts((postings, "MUST_RECEIVED", "concentrate"), (postings, "WATER_ADDED_MUST", "water"), (postings, "SUGAR_VOLUME_MUST", "sugar"))}"),
        Crush => new($"Crushed{Fruit(postings)} to {Into(postings, "GRAPES_CRUSHED")}"),
        Press press => Pressed(press, postings),
        Pitch pitch => new("Pitched", Join((pitch.Cultures ?? []).Select(Culture).Append(pitch.MustCelsius is { } celsius ? Sentence.Of($"must at {show.Temperature(celsius.Text)}") : ""))),
        Measure measure => Read(measure),
        Add add => new("Added", Join((add.Items ?? []).Select(Item))),
        Deliver deliver => Delivered(deliver, postings),
        TakeFromStores take => new(take.As switch { "cleaning" => "Used for cleaning", "spoilt" => "Spoilt in the stores", _ => "Given away from the stores" }, Materials(postings)),
        CountStores => new("Stores counted", Materials(postings)),
        Mix mix => new($"Made up {mix.Name ?? mix.Material}", Materials(postings)),
        StartKit kit => new($"Kit {kit.Kit} started: {Parts((postings, "MUST_RECEIVED", "concentrate"), (postings, "WATER_ADDED_MUST", "water"))}"),
        DescribeMaterial material => new($"Material {material.Code} described"),
        Observe observe => new(Observed(observe.What), Verbatim(observe.Finding)),
        DeclareWine => new($"Fermentation over: {show.Volume(Sum(postings, "PRODUCED"))}{Stated(postings)}{Losses(postings)}"),
        Transfer transfer => Moved(transfer, postings),
        TopUp topUp => new(Topped(topUp, postings)),
        Fortify => Process("Fortified", postings, "spirit", "FORTIFY_SPIRIT"),
        Sweeten => Process("Sweetened", postings, "sweetener", "SWEETEN_SUGAR"),
        Ameliorate => Process("Ameliorated", postings, "water", "AMELIORATE_WATER"),
        Blend => Process("Blended", postings, "", ""),
        MakeSparkling => Process("Made sparkling", postings, "dosage", "SPARKLE_DOSAGE"),
        Gauge gauge => new($"Gauged {Verbatim(gauge.Vessel)}: {show.Volume(gauge.Litres ?? Volume.None)}{Difference(postings)}"),
        Regauge regauge => new($"Stated anew: {Join([regauge.Abv is { } abv ? Sentence.Verbatim(show.Strength(abv)) : "", regauge.Product is { } kind ? Words.KindInFull(kind) : ""])}"),
        Bottle bottle => new($"Bottled {Join((bottle.Fills ?? []).Select(Fill))}{Losses(postings)}"),
        Unbottle unbottle => new($"Emptied {show.Bottles(unbottle.Bottles ?? default)} of {unbottle.Bottling} back into the cellar{Losses(postings)}"),
        Shelve shelve => Shelved(shelve, postings),
        Lose lose => new($"{Way(lose.As)} {Amount(postings)}"),
        Remove remove => new($"{Way(remove.As)} {Amount(postings)}{(remove.Recipient is { Length: > 0 } recipient ? Sentence.Of($", to {recipient}") : "")}"),
        Return => new($"Came back: {Amount(postings)}"),
        TakeAway take => new($"{(take.What == "lees" ? Sentence.Of("Lees taken away") : "Marc taken away")}, {show.Volume(Sum(postings, "BYPRODUCT_OUT"))}{(take.Destination is { Length: > 0 } destination ? Sentence.Of($", to {destination}") : "")}"),
        Count count => new(postings.Count == 0 ? Sentence.Of("Stock-take: all as in the book") : $"Stock-take: {show.Number(count.Lines?.Count ?? 0)} lines counted, {Amount(postings)} of difference"),
        Correct correct => new(correct.Write is { Count: > 0 } ? Sentence.Of($"Correction of entry {correct.TakesBack}, written again") : $"Correction of entry {correct.TakesBack}, taken back"),
        Vessel vessel => new($"{(vessel.Changes == true ? Sentence.Of($"Vessel {vessel.Code} changed") : $"Vessel {vessel.Code} made")}{(vessel.CapacityLitres is { } capacity ? Sentence.Of($", holds {show.Volume(capacity)}") : "")}"),
        Premises premises => new(premises.Name is { Length: > 0 } name ? Sentence.Of($"Premises stated: {name}") : "Premises stated"),
        Cost cost => new($"Cost put on {Sentence.Verbatim(cost.Bottling ?? cost.Lot ?? "")}: {Sentence.Verbatim(cost.What ?? "")}"),
        Describe describe => new($"Stated: {Join([Verbatim(describe.Colour), Verbatim(describe.Type), describe.Zone is { } zone ? Sentence.Of($"zone {zone}") : "", .. (describe.Schemes ?? []).Concat(describe.Cases ?? []).Select(Verbatim), describe.Schemes is { Count: 0 } ? "no scheme" : "", describe.Cases is { Count: 0 } ? "no case" : ""])}"),
        StateLimits limits => new($"Limits stated: {limits.Name ?? limits.Code}, {show.Number(limits.Rows?.Count ?? 0)} rows"),
        BlankContact blank => new($"Name of contact {blank.Contact} blanked"),
        Close close => new(close.Through is { } through ? Sentence.Of($"Book closed through {show.Day(through)}") : "Book closed"),
        _ => new(Kinds(postings)),
    };

    /// <summary>The small print of an operation: who, paper, why.</summary>
    public static Sentence SmallPrint(Operation? operation) => operation is null ? "" : Join(
    [
        operation.Estimated == true ? Sentence.Of("estimated") : operation.Estimated == false ? "measured" : "",
        operation is Receive || operation.Supplier is not { Length: > 0 } supplier ? Sentence.Empty : $"from {supplier}", operation.Document is { Length: > 0 } paper ? Sentence.Of($"paper {paper}") : "", Verbatim(operation.Reason),
        operation.DoneBy is { Length: > 0 } by ? Sentence.Of($"done by {by}") : "", Verbatim(operation.Note),
    ], "; ");

    private Telling Received(Receive receive)
    {
        var what = receive.What switch { "bulkWine" => Sentence.Of("wine in bulk"), "bottledWine" => "bottled wine", null => "", var other => Arrival(other) };
        var amount = receive.Bottles is { } bottles ? Sentence.Of($"{show.Bottles(bottles)} of {receive.Bottling}") : receive.Kilograms is { } weight ? $"{show.Weight(weight)} of fruit" : receive.Litres is { } litres ? $"{show.Volume(litres)} {what}" : what;
        var short_ = receive is { ArrivedLitres: { } arrived, Litres: { } said } && arrived < said ? Sentence.Of($", {show.Volume(said - arrived)} short on arrival") : "";
        return new($"Received {amount}{(receive.Abv is { } abv ? Sentence.Of($" at {show.Strength(abv)}") : "")}{(receive.Supplier is { Length: > 0 } supplier ? Sentence.Of($" from {supplier}") : "")}{short_}", Verbatim(receive.Brix is { } brix ? $"{show.Reading(brix.Text)} °Bx" : ""));
    }

    private Sentence Materials(IReadOnlyList<Posting> postings) => Join(postings.Where(posting => posting.MaterialUnit is not null && (posting.From.Section == Section.Stores || posting.From.Material is not null))
        .Select(posting => Sentence.Of($"{show.Material(posting.Material, posting.MaterialUnit!.Value)} of {Named(posting.From.Name)}")));

    private Telling Delivered(Deliver deliver, IReadOnlyList<Posting> postings)
    {
        var items = Join((deliver.Items ?? []).Select((item, i) => i < postings.Count && postings[i].MaterialUnit is { } unit ? Sentence.Of($"{show.Material(postings[i].Material, unit)} of {Named(item.Material)}") : Named(item.Material)));
        return new(deliver.Supplier is { Length: > 0 } supplier ? (Sentence)$"Delivered {items} from {supplier}" : $"Delivered {items}");
    }

    private Telling Pressed(Press press, IReadOnlyList<Posting> postings)
    {
        var marc = Sum(postings, "MARC_REMOVED");
        Sentence tail = $"{(marc.IsPositive ? Sentence.Of($", {show.Volume(marc)} held in the marc") : "")}{Losses(postings, "MARC_REMOVED")}";
        return press.Sources is { Count: > 0 } ? new($"Pressed off the skins into {Into(postings, "MUST_TRANSFER")}{tail}") : new($"Pressed{Fruit(postings)} to {Into(postings, "GRAPES_CRUSHED")}{tail}");
    }

    private Telling Moved(Transfer transfer, IReadOnlyList<Posting> postings)
    {
        var moves = postings.Where(posting => posting.To.Section is Section.Must or Section.Bulk).ToArray();
        var from = Join(moves.Select(posting => posting.From).Distinct().Select(account => Place(account, moves)));
        var to = Join(moves.GroupBy(posting => posting.To).Select(group => Sentence.Of($"{Place(group.Key, moves)} {show.Volume(group.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))}")));
        Sentence tail = $"{(transfer.Declare is null ? Sentence.Empty : $", fermentation over{Stated(postings)}")}{Losses(postings)}";
        return moves.Select(posting => posting.From).Distinct().Count() > 1 ? new($"Put together from {from} into {to}{tail}")
            : moves.Select(posting => posting.To).Distinct().Count() > 1 ? new($"Split from {from} into {to}{tail}") : new($"Racked from {from} into {to}{tail}");
    }

    private Sentence Topped(TopUp topUp, IReadOnlyList<Posting> postings)
    {
        var source = topUp.From is { } own ? Verbatim(own.Lot ?? own.Vessel) : topUp.FromBottles is { } bottles ? $"{show.Bottles(bottles.Bottles ?? default)} of {bottles.Bottling}" : topUp.FromWater is true ? "water" : topUp.FromBought?.What is { } bought ? Sentence.Verbatim(bought) : "bought wine";
        return $"Topped up {Join((topUp.Casks ?? []).Select(cask => Sentence.Verbatim($"{cask.Vessel ?? cask.Lot} {(cask.Litres is { } litres ? show.Volume(litres) : "")}".Trim())))} from {source}{Losses(postings, "EVAPORATION", "EVAPORATION_MUST")}";
    }

    private Telling Process(Sentence verb, IReadOnlyList<Posting> postings, Sentence mixed, string category)
    {
        var made = postings.Where(posting => posting.From.Section == Section.Process && posting.To.IsStock).ToArray();
        var added = category.Length == 0 ? Volume.None : Sum(postings, category);
        var contraction = Sum(postings, "PROCESS_CONTRACTION");
        return new($"{verb}{(added.IsPositive ? Sentence.Of($" with {show.Volume(added)} {mixed}") : "")}: {show.Volume(made.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))} made{Stated(made)}{(contraction.IsPositive ? Sentence.Of($", contraction {show.Volume(contraction)}") : "")}");
    }

    private Telling Shelved(Shelve shelve, IReadOnlyList<Posting> postings)
    {
        var moved = shelve.ToShelf is not null ? Sentence.Of($"moved to shelf {shelve.ToShelf}") : shelve.Cases is { } cases ? (Sentence)$"put in {show.Number(cases.Bottles)} cases" : "labelled";
        return new($"{Amount(postings)} {moved}{(shelve.LabelName is { Length: > 0 } label ? Sentence.Of($", labelled {label}") : "")}{(shelve.LotMark is { Length: > 0 } mark ? Sentence.Of($", lot mark {mark}") : "")}");
    }

    private Sentence Fill(Bottle.Fill fill) => $"{show.Number(fill.Bottles?.Bottles ?? 0)} × {(fill.BottleMl is { } size ? Sentence.Verbatim(show.BottleSize(size.Volume)) : "bottles")} as {fill.Bottling}";

    private static Sentence Observed(string? what) => what switch
    {
        "degassed" => "Degassed",
        "stirred" => "Stirred",
        "capPunched" => "Cap punched down",
        "clarity" => "Looked at clarity",
        "taste" => "Tasted",
        "cleaned" => "Cleaned",
        _ => "Noted",
    };

    private static Sentence Way(string? way) => way switch
    {
        "ownUse" => "Drunk at home:",
        "gift" => "Given away:",
        "sold" => "Sold",
        "tasting" => "Poured for tasting:",
        "analysis" => "Sent for analysis:",
        "sample" => "Sampled",
        "destroyed" => "Poured away:",
        "export" => "Sent abroad:",
        "inBond" => "Sent in bond:",
        "distilling" => "Sent for distilling:",
        "vinegar" => "Sent for vinegar:",
        "lees" => "Lees removed:",
        "solids" => "Solids removed:",
        "marc" => "Held in marc:",
        "filter" => "Held in filters:",
        "evaporation" => "Evaporated",
        "spill" => "Spilt",
        "breakage" => "Broken:",
        "casualty" => "Lost by accident:",
        "transit" => "Short on arrival:",
        "bottling" => "Lost in bottling:",
        "shrinkage" => "Shrinkage",
        null => "Gone:",
        _ => Sentence.Verbatim(way),
    };

    private static Sentence Arrival(string what) => what switch
    {
        "must" => "must",
        "juice" => "juice",
        "concentrate" => "concentrate",
        "fruit" => "fruit",
        "spirit" => "spirit",
        _ => Sentence.Verbatim(what),
    };
}
