namespace Cellarbook.Core.Chemistry;

/// <summary>Strength as written for duty.</summary>
public static class StrengthOnLabel
{
    /// <summary>UK duty strength.</summary>
    public static readonly Formula UkDuty = new("UK duty strength, one decimal, rounded down", "HMRC alcoholic products technical guide s. 11", SourceCheck.Read, "0 to 100 % vol");

    /// <summary>% vol cut (not rounded) to one decimal, in decimal arithmetic so that 7.6 stays 7.6. NaN outside 0–100.</summary>
    public static double RoundedDownToTenth(double abv) => abv is >= 0 and <= 100 ? (double)(Math.Truncate((decimal)abv * 10) / 10) : double.NaN;
}
