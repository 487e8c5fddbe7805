namespace Cellarbook.Core.Quantities;

/// <summary>An amount of money in whole millionths of the currency's unit; which currency stands beside it.</summary>
public readonly record struct Money(long Millionths)
{
    /// <summary>Reads a decimal amount; finer than a millionth is a fault.</summary>
    public static ExactNumber.Fault Read(ReadOnlySpan<char> text, out Money money)
    {
        var fault = ExactNumber.Read(text, 6, out var units);
        money = new(units);
        return fault;
    }

    /// <summary>The amount without needless zeros.</summary>
    public string Text => ExactNumber.Write(Millionths, 6);

    /// <inheritdoc/>
    public override string ToString() => Text;
}
