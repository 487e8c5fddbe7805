using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Stores;

/// <summary>A delivery: what came, what is left, and where the rest went.</summary>
public sealed class DeliveryModel(OpenBook book, Show show) : PageModel
{
    /// <summary>Its trace.</summary>
    public DeliveryTrace Trace { get; private set; } = null!;

    /// <summary>Opens the page of a delivery.</summary>
    /// <param name="material">The material.</param>
    /// <param name="delivery">The delivery.</param>
    public IActionResult OnGet(string material, string delivery)
    {
        var trace = book.Read(found => found.TraceOf(Account.Stores(Uri.UnescapeDataString(material), delivery)));
        if (trace is null) return this.Missing($"There is no delivery {Names.Shown(delivery)} of {Names.Shown(material)}.", "/stores", "The stores");
        Trace = trace;
        return Page();
    }

    /// <summary>What is left of it, and what its packet says.</summary>
    public Sentence State
    {
        get
        {
            var left = show.Material(Trace.InStore, Trace.Material.Unit);
            if (Trace.Facts is not { } facts) return $"{left} in store";
            return Sentence.Join(", ",
            [
                $"{left} in store of {show.Material(facts.Amount, Trace.Material.Unit)}",
                facts.Supplier is { Length: > 0 } supplier ? $"from {supplier}" : Sentence.Empty,
                facts.Batch is { Length: > 0 } batch ? $"batch {batch}" : Sentence.Empty,
                facts.BestBefore is { } until ? $"best before {show.Day(until)}" : Sentence.Empty,
                facts.Price is { } price ? $"{show.Money(price)} {facts.Currency} for all of it" : Sentence.Empty,
            ]);
        }
    }

    /// <summary>Where a use went, in words.</summary>
    public static Sentence Said(Account account) => PostingWords.Side(account);

    /// <summary>What a material is counted in.</summary>
    public MaterialUnit UnitOf(Account delivery) => book.Read(found => found.Materials.Find(delivery.Material!)?.Unit) ?? MaterialUnit.Pieces;

    /// <summary>The page of a place.</summary>
    public static string Address(Account account) => account.Section == Section.Bottled ? Links.Bottling(account.Name) : Links.Lot(account.Name);
}
