namespace Cellarbook.Core.Chemistry;

/// <summary>How far the source of a formula was checked when it was written down here.</summary>
public enum SourceCheck
{
    /// <summary>The formula or its coefficients were read in a public text.</summary>
    Read,

    /// <summary>Follows from definitions or from a formula that was read.</summary>
    Derived,

    /// <summary>Common knowledge of the trade, written from memory and not read again.</summary>
    Remembered,
}

/// <summary>A formula with its name, where it comes from and where it holds. Results are explained by it.</summary>
/// <param name="Method">Name of the method as the trade knows it.</param>
/// <param name="Source">Publication, table or statement the method comes from.</param>
/// <param name="Check">How far the source was checked.</param>
/// <param name="Validity">Where the formula holds, in words.</param>
public sealed record Formula(Sentence Method, Sentence Source, SourceCheck Check, Sentence Validity)
{
    /// <summary>Builds the explained result: <paramref name="working"/> is the formula with the numbers put in, up to its equals sign.</summary>
    public Explained Explain(string name, Sentence label, double value, string unit, int decimals, string working)
    {
        string shown = Show.Number(value, decimals);
        return new Explained
        {
            Name = name,
            Label = label,
            Value = value,
            Unit = unit,
            Decimals = decimals,
            Formula = this,
            Worked = unit.Length == 0 ? working + " = " + shown : working + " = " + shown + " " + unit,
        };
    }
}
