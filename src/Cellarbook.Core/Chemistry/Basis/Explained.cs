namespace Cellarbook.Core.Chemistry;

/// <summary>A number that can be opened: what it is, how it was found, by which source, where that holds, and the line worked out.</summary>
public sealed record Explained
{
    /// <summary>Stable name with the unit in it where it has one, such as <c>abv</c> or <c>kmbsGrams</c>.</summary>
    public required string Name { get; init; }

    /// <summary>What a person reads beside the number.</summary>
    public required Sentence Label { get; init; }

    /// <summary>The value, not rounded.</summary>
    public required double Value { get; init; }

    /// <summary>Unit of <see cref="Value"/> and of <see cref="Uncertainty"/>; empty for a pure number.</summary>
    public required string Unit { get; init; }

    /// <summary>Decimals that the method can answer for; used when shown.</summary>
    public required int Decimals { get; init; }

    /// <summary>The formula behind it.</summary>
    public required Formula Formula { get; init; }

    /// <summary>The formula with the numbers put in.</summary>
    public required string Worked { get; init; }

    /// <summary>Standard uncertainty in the unit of the value, where it is known.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>Where the uncertainty comes from, and what of it is assumed.</summary>
    public Sentence? UncertaintyBasis { get; init; }

    /// <summary>What to beware of.</summary>
    public Sentence? Caution { get; init; }

    /// <summary>Field of an entry form that can take this value as it stands, such as <c>grams</c>.</summary>
    public string? EntryField { get; init; }

    /// <summary>Name of the method.</summary>
    public Sentence Method => Formula.Method;

    /// <summary>Source of the method.</summary>
    public Sentence Source => Formula.Source;

    /// <summary>Where the method holds.</summary>
    public Sentence Validity => Formula.Validity;

    /// <summary>The value as text with its decimals.</summary>
    public string Shown => Show.Number(Value, Decimals);

    /// <summary>Value, uncertainty and unit as one text.</summary>
    public override string ToString()
    {
        string text = Uncertainty is double u ? Shown + " ± " + Show.Number(u, Decimals) : Shown;
        return Unit.Length == 0 ? text : text + " " + Unit;
    }
}
