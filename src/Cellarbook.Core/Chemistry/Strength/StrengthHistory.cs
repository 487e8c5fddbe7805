namespace Cellarbook.Core.Chemistry;

/// <summary>
/// Strength of a wine from what happened to it. Between additions the linear rule turns each fall of gravity into alcohol; what goes in meets by mass;
/// beside it the OIV account of sugar, when residual sugar was measured. What can't be reckoned gives "cannot say".
/// A measured strength holds until the wine changes and is then carried forward, and said so.
/// </summary>
public static class StrengthHistory
{
    /// <summary>Rise of gravity without addition that two honest readings may show.</summary>
    internal const double ReadingTolerance = 0.002;

    /// <summary>Measured.</summary>
    public static readonly Formula Measured = new("Measured strength", "the reading itself, as measured", SourceCheck.Derived, "holds until the wine changes");

    /// <summary>Stated.</summary>
    public static readonly Formula Stated = new("Strength as stated", "the figure stated when the wine came or was declared", SourceCheck.Derived, "as good as the statement; holds until the wine changes");

    /// <summary>Carried forward.</summary>
    public static readonly Formula CarriedForward = new("Measured strength carried forward", "mass balance of what went in since the measurement (OIML R 22, OIV-MA-AS2-03B)", SourceCheck.Derived,
        "additions of known volume and strength since the measurement");

    /// <summary>Estimate.</summary>
    public static readonly Formula Estimated = new("Linear rule on each fall of gravity, additions by mass", "131.25 x fall, common practice, no source; additions by mass balance (OIML R 22, OIV-MA-AS2-03B)",
        SourceCheck.Derived, "first gravity before fermentation, all additions known, a gravity read after them");

    /// <summary>OIV account.</summary>
    public static readonly Formula SugarAccount = new("OIV potential of all sugar less residual sugar, additions by mass", "OIV-MA-AS2-02 Table II, divided by the factor of the chosen rules; alcohol of wine and spirit added",
        SourceCheck.Derived, "each must within SG 20/20 1.0410 to 1.1307, residual sugar measured after the last addition");

    /// <summary>Works out the strength now. Results: <c>abv</c>, and <c>abvBySugar</c> where residual sugar is known; else a refusal.</summary>
    /// <param name="steps">What happened, in order; begins with a first gravity or a first wine.</param>
    /// <param name="gramsPerLitrePerAbv">Factor of the chosen rules for the sugar account.</param>
    public static BenchAnswer Now(IReadOnlyList<StrengthStep> steps, double gramsPerLitrePerAbv)
    {
        var account = new StrengthAccount(gramsPerLitrePerAbv);
        foreach (StrengthStep step in steps)
        {
            account.Take(step);
        }

        return account.Close();
    }
}
