namespace Cellarbook.Core.Chemistry;

/// <summary>Logistic course of gravity: SG(t) = SGf + (SG0 − SGf) / (1 + e^{k(t − tm)}). No forecast from a curve that does not fall.</summary>
public static class FermentCurve
{
    /// <summary>The method of this class.</summary>
    public static readonly Formula Logistic = new("Logistic gravity curve", "least squares on ln((SG0 - SG)/(SG - SGf))", SourceCheck.Derived,
        "readings strictly between final and original gravity, at least two on different days, gravity falling; not for a stuck ferment");

    /// <summary>Gravity on a day of the curve.</summary>
    public static double Gravity(double day, double originalGravity, double finalGravity, double perDay, double middleDay) =>
        finalGravity < originalGravity && perDay > 0 ? finalGravity + ((originalGravity - finalGravity) / (1 + Math.Exp(perDay * (day - middleDay)))) : double.NaN;

    /// <summary>Day on which the curve reaches a gravity strictly between final and original; NaN else.</summary>
    public static double Day(double targetGravity, double originalGravity, double finalGravity, double perDay, double middleDay) =>
        perDay > 0 ? middleDay + (Logit(targetGravity, originalGravity, finalGravity) / perDay) : double.NaN;

    /// <summary>Day on which a gravity will be reached, by regression on readings. NaN is "no forecast".</summary>
    /// <param name="days">Days of the readings.</param>
    /// <param name="gravities">Gravities read; those not strictly between final and original are left out.</param>
    /// <param name="targetGravity">Gravity asked for.</param>
    /// <param name="originalGravity">Gravity at the start.</param>
    /// <param name="finalGravity">Gravity at which the wine is expected to end (dry: about 0.992 to 0.996).</param>
    public static double ForecastDay(ReadOnlySpan<double> days, ReadOnlySpan<double> gravities, double targetGravity, double originalGravity, double finalGravity)
    {
        double count = 0, meanDay = 0, meanLogit = 0;
        for (int i = 0; i < Math.Min(days.Length, gravities.Length); i++)
        {
            double y = Logit(gravities[i], originalGravity, finalGravity);
            if (double.IsFinite(y) && double.IsFinite(days[i]))
            {
                count++;
                meanDay += (days[i] - meanDay) / count;
                meanLogit += (y - meanLogit) / count;
            }
        }

        double across = 0, along = 0;
        for (int i = 0; i < Math.Min(days.Length, gravities.Length); i++)
        {
            double y = Logit(gravities[i], originalGravity, finalGravity);
            if (double.IsFinite(y) && double.IsFinite(days[i]))
            {
                across += (days[i] - meanDay) * (y - meanLogit);
                along += (days[i] - meanDay) * (days[i] - meanDay);
            }
        }

        double perDay = across / along;
        return count >= 2 && perDay > 0 && double.IsFinite(perDay) ? meanDay + ((Logit(targetGravity, originalGravity, finalGravity) - meanLogit) / perDay) : double.NaN;
    }

    private static double Logit(double gravity, double original, double final) =>
        gravity < original && gravity > final ? Math.Log((original - gravity) / (gravity - final)) : double.NaN;
}
