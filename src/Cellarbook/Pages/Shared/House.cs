using Cellarbook.Core.Operations;
using Cellarbook.Recording;

namespace Cellarbook.Pages.Shared;

/// <summary>Whose book it is, for the words and fields a page shows.</summary>
public sealed class House(OpenBook book)
{
    /// <summary>The premises as last recorded; null while the first question stands open.</summary>
    public Premises? Premises => book.Read(found => found.Premises);

    /// <summary>True when nobody has said yet whose book this is.</summary>
    public bool IsNew => Premises is null;

    /// <summary>True for a household that owes nobody a form: no tax words anywhere.</summary>
    public bool IsHousehold => Premises?.Regimes is { Count: > 0 } regimes && regimes.All(regime => regime == "household");

    /// <summary>True when the book answers to a regime, such as "us".</summary>
    public bool AnswersTo(string regime) => Premises?.Regimes?.Contains(regime) == true;

    /// <summary>Name of the household or premises; empty when none was given.</summary>
    public string Name => Premises?.Name ?? "";

    /// <summary>Who records, before accounts exist.</summary>
    public string Owner => Premises?.Owner is { Length: > 0 } owner ? owner : "owner";

    /// <summary>Today in the book's time zone.</summary>
    public DateOnly Today => book.Today;
}
