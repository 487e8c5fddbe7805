namespace Cellarbook.Core.Quantities;

/// <summary>A part of a whole in whole thousandths of a per cent.</summary>
public readonly record struct Percent(int Thousandths)
{
    /// <summary>All of it.</summary>
    public static readonly Percent Whole = new(100_000);

    /// <summary>Reads a decimal percentage between 0 and 100; finer than 0.001 is a fault.</summary>
    public static ExactNumber.Fault Read(ReadOnlySpan<char> text, out Percent percent)
    {
        var fault = ExactNumber.Read(text, 3, out var units);
        if (fault == ExactNumber.Fault.None && units is < 0 or > 100_000) fault = ExactNumber.Fault.TooLarge;
        percent = new(fault == ExactNumber.Fault.None ? (int)units : 0);
        return fault;
    }

    /// <summary>Decimal per cent without needless zeros.</summary>
    public string Text => ExactNumber.Write(Thousandths, 3);
}

/// <summary>
/// A figure as read off an instrument or a packet, kept with the decimals it was read to: 1.050 is not 1.05. For readings only; nothing in the
/// book is counted in it.
/// </summary>
public readonly record struct Reading(string Text)
{
    /// <summary>The figure for formulas.</summary>
    public double Value => double.Parse(Text, System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Reads a decimal number of at most 20 digits.</summary>
    public static ExactNumber.Fault Read(ReadOnlySpan<char> text, out Reading reading)
    {
        reading = default;
        var fault = ExactNumber.Read(text, 9, out _);
        if (fault != ExactNumber.Fault.None) return fault;
        if (text.IndexOfAny('e', 'E') >= 0)
        {
            ExactNumber.Read(text, 9, out var units);
            reading = new(ExactNumber.Write(units, 9));
        }
        else reading = new(text.ToString());
        return fault;
    }
}
