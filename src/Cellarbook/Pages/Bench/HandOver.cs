using Cellarbook.Core.Chemistry;

namespace Cellarbook.Pages.Bench;

/// <summary>Where a result of the bench can go on: an entry form with the figure filled in.</summary>
/// <param name="Kind">Kind of the operation.</param>
/// <param name="Field">The field that takes the figure.</param>
/// <param name="Words">What the link says.</param>
public sealed record HandOver(string Kind, string Field, Sentence Words)
{
    private static readonly HandOver Addition = new("add", "items[0].grams", "Write down an addition of this much");
    private static readonly HandOver Reading = new("measure", "gravity", "Write this down as a reading");
    private static readonly HandOver Content = new("gauge", "litres", "Write this down as what the vessel holds");

    // What the figure is for depends on the calculator where its field alone doesn't tell.
    private static readonly Dictionary<(string Calculator, string Result), HandOver> Own = new()
    {
        [("headspace", "headspaceLitres")] = new("topUp", "casks[0].litres", "Write down a topping of this much"),
        [("make-up", "waterLitres")] = new("makeUp", "waterLitres", "Make up with this much water"),
        [("make-up", "litresAfter")] = new("makeUp", "markLitres", "Make up to this mark"),
        [("blend-to-strength", "secondLitres")] = new("fortify", "spiritLitres", "Write down a fortifying with this much"),
        [("bottles", "restLitres")] = new("lose", "litres", "Write this down as lost at bottling"),
        [("strength", "abv")] = new("regauge", "abv", "State this strength"),
        [("mix", "abv")] = new("regauge", "abv", "State this strength"),
        [("alcoholmeter", "abv")] = new("measure", "abvFound", "Write this down as a reading"),
        [("hydrometer-distillate", "abv")] = new("measure", "abvFound", "Write this down as a reading"),
        [("strength-from-density", "abv")] = new("measure", "abvFound", "Write this down as a reading"),
        [("so2-titration", "so2MgPerLitre")] = new("measure", "freeSo2MgPerLitre", "Write this down as free SO2 read"),
    };

    /// <summary>Where a result can go; null where it fits no form.</summary>
    public static HandOver? Of(BenchCalculator calculator, Explained result) => Own.GetValueOrDefault((calculator.Id, result.Name)) ?? result.EntryField switch
    {
        "grams" => Addition,
        "gravity" => Reading,
        "litres" => Content,
        "abv" => new("declareWine", "abv", "Declare wine at this strength"),
        "bottles" => new("bottle", "fills[0].bottles", "Write down a bottling of this many"),
        _ => null,
    };

    /// <summary>The address with the figure filled in, as the book counts: strengths to 0.01, the others as shown.</summary>
    public string Address(Explained result)
    {
        var decimals = Field is "abv" or "abvFound" ? Math.Min(2, result.Decimals) : result.Decimals;
        // A form is named for what is done, in words of an address.
        var form = Kind switch { "declareWine" => "declare", "topUp" => "top-up", "makeUp" => "make-up", _ => Kind };
        return $"/record/{form}?{Uri.EscapeDataString(Field)}={Core.Chemistry.Show.Number(result.Value, decimals)}";
    }
}
