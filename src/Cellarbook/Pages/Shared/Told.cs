using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>What was done, as a cellar diary says it, and the readings and additions that stand beside it. Plain text both.</summary>
public sealed record Telling(string What, string Beside = "");

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
        MakeUp => new("Made up: " + Parts((postings, "MUST_RECEIVED", "concentrate"), (postings, "WATER_ADDED_MUST", "water"), (postings, "SUGAR_VOLUME_MUST", "sugar"))),
        Crush => new($"Crushed{Fruit(postings)} to {Into(postings, "GRAPES_CRUSHED")}"),
        Press press => Pressed(press, postings),
        Pitch pitch => new("Pitched", Join((pitch.Cultures ?? []).Select(Culture).Append(pitch.MustCelsius is { } celsius ? "must at " + show.Temperature(celsius.Text) : ""))),
        Measure measure => Read(measure),
        Add add => new("Added", Join((add.Items ?? []).Select(Item))),
        Deliver deliver => new($"Delivered {Join((deliver.Items ?? []).Select((item, i) => $"{(i < postings.Count && postings[i].MaterialUnit is { } unit ? show.Material(postings[i].Material, unit) + " of " : "")}{item.Material}"))}{Named(deliver.Supplier, " from ")}"),
        Observe observe => new(Observed(observe.What), observe.Finding ?? ""),
        DeclareWine => new($"Fermentation over: {show.Volume(Sum(postings, "PRODUCED"))}{Stated(postings)}{Losses(postings)}"),
        Transfer transfer => Moved(transfer, postings),
        TopUp topUp => new(Topped(topUp, postings)),
        Fortify => Process("Fortified", postings, "spirit", "FORTIFY_SPIRIT"),
        Sweeten => Process("Sweetened", postings, "sweetener", "SWEETEN_SUGAR"),
        Ameliorate => Process("Ameliorated", postings, "water", "AMELIORATE_WATER"),
        Blend => Process("Blended", postings, "", ""),
        MakeSparkling => Process("Made sparkling", postings, "dosage", "SPARKLE_DOSAGE"),
        Gauge gauge => new($"Gauged{Named(gauge.Vessel, " ")}: {show.Volume(gauge.Litres ?? Volume.None)}{Difference(postings)}"),
        Regauge regauge => new("Stated anew: " + Join([regauge.Abv is { } abv ? show.Strength(abv) : "", regauge.Product is { } kind ? kind.ToString().ToLowerInvariant() : ""])),
        Bottle bottle => new($"Bottled {Join((bottle.Fills ?? []).Select(Fill))}{Losses(postings)}"),
        Unbottle unbottle => new($"Emptied {show.Bottles(unbottle.Bottles ?? default)} of {unbottle.Bottling} back into the cellar{Losses(postings)}"),
        Shelve shelve => Shelved(shelve, postings),
        Lose lose => new(Capital(Way(lose.As)) + " " + Amount(postings)),
        Remove remove => new($"{Capital(Way(remove.As))} {Amount(postings)}{Named(remove.Recipient, ", to ")}"),
        Return => new("Came back: " + Amount(postings)),
        TakeAway take => new($"{Capital(take.What ?? "")} taken away, {show.Volume(Sum(postings, "BYPRODUCT_OUT"))}{Named(take.Destination, ", to ")}"),
        Count count => new("Stock-take" + (postings.Count == 0 ? ": all as in the book" : $": {show.Number(count.Lines?.Count ?? 0)} lines counted, {Amount(postings)} of difference")),
        Correct correct => new($"Correction of entry {correct.TakesBack}" + (correct.Write is { Count: > 0 } ? ", written again" : ", taken back")),
        Vessel vessel => new($"Vessel {vessel.Code} {(vessel.Changes == true ? "changed" : "made")}{(vessel.CapacityLitres is { } capacity ? ", holds " + show.Volume(capacity) : "")}"),
        Premises premises => new("Premises stated" + Named(premises.Name, ": ")),
        Describe describe => new("Stated: " + Join([describe.Colour ?? "", describe.Type ?? "", Named(describe.Zone, "zone "), .. describe.Schemes ?? [], .. describe.Cases ?? [], describe.Schemes is { Count: 0 } ? "no scheme" : "", describe.Cases is { Count: 0 } ? "no case" : ""])),
        StateLimits limits => new($"Limits stated: {limits.Name ?? limits.Code}, {show.Number(limits.Rows?.Count ?? 0)} rows{Named(limits.Who, ", by ")}"),
        BlankContact blank => new($"Name of contact {blank.Contact} blanked"),
        Close close => new(close.Through is { } through ? "Book closed through " + Show.Day(through) : "Book closed"),
        _ => new(Kinds(postings)),
    };

    /// <summary>The small print of an operation: who, paper, why.</summary>
    public static string SmallPrint(Operation? operation) => operation is null ? "" : Join(
    [
        operation.Estimated == true ? "estimated" : operation.Estimated == false ? "measured" : "",
        operation is Receive ? "" : Named(operation.Supplier, "from "), Named(operation.Document, "paper "), Named(operation.Reason, ""), Named(operation.DoneBy, "done by "), Named(operation.Note, ""),
    ], "; ");

    private Telling Received(Receive receive)
    {
        var what = receive.What switch { "bulkWine" => "wine in bulk", "bottledWine" => "bottled wine", null => "", var other => other };
        var amount = receive.Bottles is { } bottles ? $"{show.Bottles(bottles)} of {receive.Bottling}" : receive.Kilograms is { } weight ? show.Weight(weight) + " of fruit" : receive.Litres is { } litres ? $"{show.Volume(litres)} {what}" : what;
        var short_ = receive is { ArrivedLitres: { } arrived, Litres: { } said } && arrived < said ? $", {show.Volume(said - arrived)} short on arrival" : "";
        return new($"Received {amount}{(receive.Abv is { } abv ? " at " + show.Strength(abv) : "")}{Named(receive.Supplier, " from ")}{short_}", receive.Brix is { } brix ? $"{show.Reading(brix.Text)} °Bx" : "");
    }

    private Telling Pressed(Press press, IReadOnlyList<Posting> postings)
    {
        var marc = Sum(postings, "MARC_REMOVED");
        var tail = (marc.IsPositive ? $", {show.Volume(marc)} held in the marc" : "") + Losses(postings, "MARC_REMOVED");
        return press.Sources is { Count: > 0 } ? new($"Pressed off the skins into {Into(postings, "MUST_TRANSFER")}{tail}") : new($"Pressed{Fruit(postings)} to {Into(postings, "GRAPES_CRUSHED")}{tail}");
    }

    private Telling Moved(Transfer transfer, IReadOnlyList<Posting> postings)
    {
        var moves = postings.Where(posting => posting.To.Section is Section.Must or Section.Bulk).ToArray();
        var from = Join(moves.Select(posting => posting.From).Distinct().Select(account => Place(account, moves)));
        var to = Join(moves.GroupBy(posting => posting.To).Select(group => $"{Place(group.Key, moves)} {show.Volume(group.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))}"));
        var verb = moves.Select(posting => posting.From).Distinct().Count() > 1 ? "Put together" : moves.Select(posting => posting.To).Distinct().Count() > 1 ? "Split" : "Racked";
        return new($"{verb} from {from} into {to}{(transfer.Declare is null ? "" : ", fermentation over" + Stated(postings))}{Losses(postings)}");
    }

    private string Topped(TopUp topUp, IReadOnlyList<Posting> postings)
    {
        var source = topUp.From is { } own ? Named(own.Lot ?? own.Vessel, "") : topUp.FromBottles is { } bottles ? $"{show.Bottles(bottles.Bottles ?? default)} of {bottles.Bottling}" : topUp.FromWater is true ? "water" : topUp.FromBought?.What ?? "bought wine";
        return $"Topped up {Join((topUp.Casks ?? []).Select(cask => $"{cask.Vessel ?? cask.Lot} {(cask.Litres is { } litres ? show.Volume(litres) : "")}".Trim()))} from {source}{Losses(postings, "EVAPORATION", "EVAPORATION_MUST")}";
    }

    private Telling Process(string verb, IReadOnlyList<Posting> postings, string mixed, string category)
    {
        var made = postings.Where(posting => posting.From.Section == Section.Process && posting.To.IsStock).ToArray();
        var added = category.Length == 0 ? Volume.None : Sum(postings, category);
        var contraction = Sum(postings, "PROCESS_CONTRACTION");
        return new($"{verb}{(added.IsPositive ? $" with {show.Volume(added)} {mixed}" : "")}: {show.Volume(made.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume))} made{Stated(made)}{(contraction.IsPositive ? $", contraction {show.Volume(contraction)}" : "")}");
    }

    private Telling Shelved(Shelve shelve, IReadOnlyList<Posting> postings)
    {
        var moved = shelve.ToShelf is not null ? $"moved to shelf {shelve.ToShelf}" : shelve.Cases is { } cases ? $"put in {show.Number(cases.Bottles)} cases" : "labelled";
        return new($"{Amount(postings)} {moved}{Named(shelve.LabelName, ", labelled ")}{Named(shelve.LotMark, ", lot mark ")}");
    }

    private string Fill(Bottle.Fill fill) => $"{show.Number(fill.Bottles?.Bottles ?? 0)} × {(fill.BottleMl is { } size ? show.BottleSize(size.Volume) : "bottles")} as {fill.Bottling}";

    private static string Observed(string? what) => what switch
    {
        "degassed" => "Degassed",
        "stirred" => "Stirred",
        "capPunched" => "Cap punched down",
        "clarity" => "Looked at clarity",
        "taste" => "Tasted",
        "cleaned" => "Cleaned",
        _ => "Noted",
    };

    private static string Way(string? way) => way switch
    {
        "ownUse" => "drunk at home:",
        "gift" => "given away:",
        "sold" => "sold",
        "tasting" => "poured for tasting:",
        "analysis" => "sent for analysis:",
        "sample" => "sampled",
        "destroyed" => "poured away:",
        "export" => "sent abroad:",
        "inBond" => "sent in bond:",
        "distilling" => "sent for distilling:",
        "vinegar" => "sent for vinegar:",
        "lees" => "lees removed:",
        "solids" => "solids removed:",
        "marc" => "held in marc:",
        "filter" => "held in filters:",
        "evaporation" => "evaporated",
        "spill" => "spilt",
        "breakage" => "broken:",
        "casualty" => "lost by accident:",
        "transit" => "short on arrival:",
        "bottling" => "lost in bottling:",
        "shrinkage" => "shrinkage",
        _ => way ?? "gone:",
    };

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
