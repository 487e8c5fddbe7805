using Cellarbook.Forms;

namespace Cellarbook.Pages.Shared;

/// <summary>The two figures most often read, to be written from the page of what they are read of.</summary>
/// <param name="Lot">The lot.</param>
/// <param name="Vessel">The vessel it lies in.</param>
/// <param name="Last">Number of the last entry when the page was made.</param>
/// <param name="Sugar">The scale of sugar last used on this device.</param>
public sealed record ReadNow(string Lot, string Vessel, long Last, string Sugar)
{
    /// <summary>For a lot in a vessel.</summary>
    public static ReadNow Of(string lot, string vessel, long last, HttpRequest request) =>
        new(lot, vessel, last, LastChoices.Of("measure", request).Unit(new(FieldKind.Figure, "gravity", "") { Units = Unit.Sugars }) ?? Unit.Sugars[0].Name);

    /// <summary>The form that takes it, and shows it again where something is wrong.</summary>
    public string Address => Links.Record("measure", "lot", Lot, "vessel", Vessel);

    /// <summary>The place as the form names it.</summary>
    public string Place => Lot + FieldReading.At + Vessel;
}
