namespace Cellarbook.Core.Quantities;

/// <summary>A mass of material in whole milligrams.</summary>
public readonly record struct Mass(long Milligrams)
{
    /// <summary>Reads decimal grams; finer than a milligram is a fault.</summary>
    public static ExactNumber.Fault ReadGrams(ReadOnlySpan<char> text, out Mass mass)
    {
        var fault = ExactNumber.Read(text, 3, out var units);
        mass = new(units);
        return fault;
    }

    /// <summary>Decimal grams without needless zeros.</summary>
    public string Grams => ExactNumber.Write(Milligrams, 3);

    /// <inheritdoc/>
    public override string ToString() => Grams + " g";
}

/// <summary>A weight of fruit in whole grams.</summary>
public readonly record struct FruitWeight(long Grams)
{
    /// <summary>Reads decimal kilograms; finer than a gram is a fault.</summary>
    public static ExactNumber.Fault ReadKilograms(ReadOnlySpan<char> text, out FruitWeight weight)
    {
        var fault = ExactNumber.Read(text, 3, out var units);
        weight = new(units);
        return fault;
    }

    /// <summary>Decimal kilograms without needless zeros.</summary>
    public string Kilograms => ExactNumber.Write(Grams, 3);

    /// <summary>The sum.</summary>
    public static FruitWeight operator +(FruitWeight a, FruitWeight b) => new(checked(a.Grams + b.Grams));

    /// <summary>The difference.</summary>
    public static FruitWeight operator -(FruitWeight a, FruitWeight b) => new(checked(a.Grams - b.Grams));

    /// <inheritdoc/>
    public override string ToString() => Kilograms + " kg";
}
