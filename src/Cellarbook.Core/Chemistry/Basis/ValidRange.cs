namespace Cellarbook.Core.Chemistry;

/// <summary>The closed range in which a formula or an instrument may be trusted. Outside it a formula answers NaN and the bench refuses.</summary>
public readonly record struct ValidRange(double Low, double High, string Unit)
{
    /// <summary>True inside the range, ends included. NaN is outside every range.</summary>
    public bool Contains(double value) => value >= Low && value <= High;

    /// <summary>The range in words, such as <c>0 to 40 °C</c>.</summary>
    public Sentence Said => Unit.Length == 0 ? Sentence.Of($"{Show.Typed(Low)} to {Show.Typed(High)}") : $"{Show.Typed(Low)} to {Show.Typed(High)} {Sentence.Seed(Unit)}";

    /// <inheritdoc/>
    public override string ToString() => Said.ToString();
}
