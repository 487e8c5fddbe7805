namespace Cellarbook.Core.Chemistry;

/// <summary>A way to express acidity: an acid by its equivalent mass, or milliequivalents.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="Label">Name.</param>
/// <param name="GramsPerEquivalent">Equivalent mass; 1 for meq/L itself.</param>
public sealed record AcidScale(string Code, Sentence Label, double GramsPerEquivalent);

/// <summary>A salt that takes acid out.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="Label">Name.</param>
/// <param name="GramsPerMole">Molar mass.</param>
/// <param name="Equivalents">Acid equivalents a mole takes up.</param>
/// <param name="BitartrateEquivalents">Further equivalents a mole takes when its potassium leaves as potassium bitartrate.</param>
public sealed record DeacidifyingSalt(string Code, Sentence Label, double GramsPerMole, int Equivalents, int BitartrateEquivalents);

/// <summary>Titratable acidity, additions and deacidification.</summary>
public static class Acid
{
    /// <summary>The scales, tartaric first.</summary>
    public static IReadOnlyList<AcidScale> Scales { get; } =
    [
        new("tartaric", "g/L as tartaric acid", 150.087 / 2), new("sulfuric", "g/L as sulphuric acid", 98.078 / 2), new("malic", "g/L as malic acid", 134.087 / 2),
        new("citric", "g/L as citric acid", 192.124 / 3), new("acetic", "g/L as acetic acid", 60.052), new("lactic", "g/L as lactic acid", 90.078), new("meq", "meq/L", 1),
    ];

    /// <summary>The salts.</summary>
    public static IReadOnlyList<DeacidifyingSalt> Salts { get; } =
    [
        new("KHCO3", "Potassium bicarbonate", 100.115, 1, 1), new("CaCO3", "Calcium carbonate", 100.087, 2, 0), new("K2CO3", "Potassium carbonate", 138.205, 2, 2),
    ];

    /// <summary>Tartaric acid, the scale of EU law.</summary>
    public static AcidScale Tartaric => Scales[0];

    /// <summary>Conversion.</summary>
    public static readonly Formula Equivalents = new("Acid equivalents", "equivalent masses from atomic weights", SourceCheck.Derived, "0 to 50 g/L, 0 to 1000 meq/L; the end point (pH 7.0 OIV, 8.2 US) stays with the figure");

    /// <summary>Titration.</summary>
    public static readonly Formula Titration = new("Titratable acidity", "mL x N x equivalent mass / mL of sample; end point pH 7.0 (OIV) or 8.2 (US), not interchangeable", SourceCheck.Derived, "degassed sample");

    /// <summary>Addition.</summary>
    public static readonly Formula Addition = new("Acid addition", "1 g/L of tartaric acid raises titratable acidity by 1 g/L before bitartrate falls out; other acids by equivalents", SourceCheck.Derived, "rise 0 to 10 g/L as tartaric");

    /// <summary>Deacidification.</summary>
    public static readonly Formula Deacidification = new("Deacidification by stoichiometry", "equivalents of the salt; potassium counts once more when it leaves as bitartrate", SourceCheck.Derived, "drop 0 to 10 g/L as tartaric");

    /// <summary>Converts g/L of one acid to g/L of another, or from and to meq/L.</summary>
    public static double Convert(double value, AcidScale from, AcidScale to) => value is >= 0 and <= 1000 ? value * Milli(from) / Milli(to) : double.NaN;

    /// <summary>Titratable acidity in g/L as tartaric acid.</summary>
    public static double TitratableTartaricGramsPerLitre(double titrantMillilitres, double normality, double sampleMillilitres) =>
        titrantMillilitres >= 0 && normality > 0 && sampleMillilitres > 0 ? titrantMillilitres * normality * Tartaric.GramsPerEquivalent / sampleMillilitres : double.NaN;

    /// <summary>Grams of an acid that raise titratable acidity by so much (as tartaric) before anything falls out.</summary>
    public static double AdditionGrams(double litres, double raiseTartaricGramsPerLitre, AcidScale acid) => litres >= 0 && raiseTartaricGramsPerLitre is >= 0 and <= 10
        ? litres * raiseTartaricGramsPerLitre * acid.GramsPerEquivalent / Tartaric.GramsPerEquivalent
        : double.NaN;

    /// <summary>Grams of a salt for a drop in titratable acidity (as tartaric).</summary>
    /// <param name="litres">Volume of wine or must.</param>
    /// <param name="dropTartaricGramsPerLitre">Drop, g/L as tartaric.</param>
    /// <param name="salt">Which salt.</param>
    /// <param name="potassiumLeaves">True when the potassium will fall out as bitartrate (after cold), false for the acid–base effect alone.</param>
    public static double DeacidificationGrams(double litres, double dropTartaricGramsPerLitre, DeacidifyingSalt salt, bool potassiumLeaves)
    {
        int equivalents = salt.Equivalents + (potassiumLeaves ? salt.BitartrateEquivalents : 0);
        return litres >= 0 && dropTartaricGramsPerLitre is >= 0 and <= 10
            ? litres * dropTartaricGramsPerLitre / Tartaric.GramsPerEquivalent * salt.GramsPerMole / equivalents
            : double.NaN;
    }

    private static double Milli(AcidScale scale) => scale.Code == "meq" ? 1 : 1000 / scale.GramsPerEquivalent;
}
