namespace Cellarbook.Core.Chemistry;

/// <summary>Combining standard uncertainties (root of the sum of squares, Guide to the Expression of Uncertainty in Measurement).</summary>
public static class Uncertainty
{
    /// <summary>Combined standard uncertainty of independent parts, each already in the unit of the result.</summary>
    public static double Combined(params ReadOnlySpan<double> parts)
    {
        double squares = 0;
        foreach (double part in parts)
        {
            squares += part * part;
        }

        return Math.Sqrt(squares);
    }

    /// <summary>Standard uncertainty in % vol of a strength by factor × (original − final gravity).</summary>
    /// <param name="factor">Factor of the linear rule, % vol per unit of gravity.</param>
    /// <param name="originalGravityUncertainty">Standard uncertainty of the original gravity.</param>
    /// <param name="finalGravityUncertainty">Standard uncertainty of the final gravity.</param>
    /// <param name="modelAbv">Standard uncertainty of the rule itself, % vol.</param>
    public static double OfLinearStrengthAbv(double factor, double originalGravityUncertainty, double finalGravityUncertainty, double modelAbv) =>
        Combined(factor * originalGravityUncertainty, factor * finalGravityUncertainty, modelAbv);
}
