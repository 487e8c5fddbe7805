using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Vessels;

/// <summary>Makes a vessel, or changes its capacity, name, sort or location.</summary>
public sealed class WriteModel(OpenBook book, Show show) : PageModel
{
    /// <summary>Its code.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Code { get; set; }

    /// <summary>What it holds when full, in the preferred unit, as typed.</summary>
    [BindProperty]
    public string? Capacity { get; set; }

    /// <summary>What it is called.</summary>
    [BindProperty]
    public string? Name { get; set; }

    /// <summary>Bucket, carboy, tank, cask.</summary>
    [BindProperty]
    public string? Sort { get; set; }

    /// <summary>Where it stands.</summary>
    [BindProperty]
    public string? Location { get; set; }

    /// <summary>True when a vessel that is there is changed.</summary>
    [BindProperty]
    public bool IsChange { get; set; }

    /// <summary>Makes a form sent twice count once.</summary>
    [BindProperty]
    public string Key { get; set; } = Guid.NewGuid().ToString("N");

    /// <summary>What is wrong, by field.</summary>
    public Dictionary<string, Sentence> Wrong { get; } = new(StringComparer.Ordinal);

    /// <summary>The most it ever held.</summary>
    public Volume Peak { get; private set; }

    /// <summary>The form, filled with what is known of a vessel that is there.</summary>
    public void OnGet() => Look(fill: true);

    /// <summary>Writes it.</summary>
    public IActionResult OnPost()
    {
        var change = IsChange;
        var (capacity, said) = Volume();
        var operation = new Vessel
        {
            Day = book.Today,
            Code = Code?.Trim(),
            CapacityLitres = capacity,
            Name = Name.OrNull(),
            Sort = Sort.OrNull(),
            Location = Location.OrNull(),
            Changes = change ? true : null,
            Typed = capacity is not null && show.Preferences.Volume != VolumeUnit.Litre ? new Dictionary<string, string> { ["capacityLitres"] = $"{Capacity!.Trim()} {show.VolumeUnit}" } : null,
        };
        if (said is not null) Wrong["capacityLitres"] = said;
        var recorded = said is null ? book.Record(operation, book.ActorOf(User), Key) : book.Record(operation, book.ActorOf(User), check: true);
        foreach (var refusal in recorded.Refusals) Wrong.TryAdd(refusal.Path is "code" or "capacityLitres" or "name" or "sort" or "location" ? refusal.Path : "", refusal.Sentence);
        if (Wrong.Count == 0) return Redirect(Links.Vessel(operation.Code!));
        Look(fill: false);
        return Page();
    }

    /// <summary>The capacity typed, in litres; or what is the matter with it.</summary>
    private (Volume? Capacity, Sentence? Said) Volume()
    {
        if (string.IsNullOrWhiteSpace(Capacity)) return (null, null);
        if (Figure.Read(Capacity, show.Preferences.DecimalComma, small: false, out var figure) is { } fault) return (null, fault);
        return Core.Quantities.Volume.ReadLitres(Unit.Volumes.Single(unit => unit.Name == show.VolumeUnit).Convert(figure), out var litres) switch
        {
            ExactNumber.Fault.None => (litres, null),
            ExactNumber.Fault.TooFine => (null, "That is finer than a microlitre, the smallest volume the book counts."),
            _ => (null, "That is more than the book can count."),
        };
    }

    private void Look(bool fill) => book.Read(found =>
    {
        if (Code is null || VesselLine.Of(found, Code) is not { } vessel) return 0;
        Peak = vessel.Peak;
        if (!fill) return 0;
        IsChange = true;
        (Name, Sort, Location) = (vessel.Name == vessel.Code ? null : vessel.Name, vessel.Sort, vessel.Location);
        Capacity = vessel.Capacity is { } capacity ? show.Input(capacity) : null;
        return 0;
    });
}
