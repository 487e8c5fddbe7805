namespace Cellarbook.Core.Chemistry;

/// <summary>°Oechsle, KMW and °Baumé, each a function of specific gravity.</summary>
public static class MustScales
{
    /// <summary>Modulus of the Baumé scale customary in the United States (60/60 °F), from memory.</summary>
    public const double BaumeModulusUs = 145;

    /// <summary>Modulus of the European rational Baumé scale, from memory.</summary>
    public const double BaumeModulusEurope = 144.3;

    /// <summary>KMW to which the quadratic is held: the scale of the instruments.</summary>
    public static readonly ValidRange Kmw = new(0, 35, "KMW");

    /// <summary>°Oechsle by definition.</summary>
    public static readonly Formula OechsleDefinition = new("Degree Oechsle by definition", "definition 1000 (SG 20/20 - 1)", SourceCheck.Derived,
        "SG 0.980 to 1.400; negative for dry wine");

    /// <summary>KMW by the quadratic.</summary>
    public static readonly Formula KmwQuadratic = new("KMW quadratic", "°Oe = KMW (0.022 KMW + 4.54), as given in food-trade references", SourceCheck.Read, "0 to 35 KMW");

    /// <summary>Baumé by modulus.</summary>
    public static readonly Formula Baume = new("Baumé scale", "M - M/SG; M = 145 (US, 60/60 °F) or 144.3 (European rational), from memory", SourceCheck.Remembered,
        "SG 0.980 to 1.400; the modulus belongs to the instrument");

    private static readonly ValidRange Gravity = new(0.980, 1.400, "SG");

    /// <summary>°Oechsle = 1000 (SG − 1). NaN outside SG 0.980–1.400.</summary>
    public static double OechsleFromGravity(double gravity) => Gravity.Contains(gravity) ? 1000 * (gravity - 1) : double.NaN;

    /// <summary>SG 20/20 from °Oechsle. NaN outside −20…400.</summary>
    public static double GravityFromOechsle(double oechsle) => oechsle is >= -20 and <= 400 ? 1 + (oechsle / 1000) : double.NaN;

    /// <summary>°Oechsle from KMW. NaN outside 0–35.</summary>
    public static double OechsleFromKmw(double kmw) => Kmw.Contains(kmw) ? kmw * ((0.022 * kmw) + 4.54) : double.NaN;

    /// <summary>KMW from °Oechsle: the positive root. NaN outside 0–185.85 °Oe.</summary>
    public static double KmwFromOechsle(double oechsle) =>
        oechsle >= 0 && oechsle <= OechsleFromKmw(Kmw.High) ? (-4.54 + Math.Sqrt((4.54 * 4.54) + (4 * 0.022 * oechsle))) / 0.044 : double.NaN;

    /// <summary>°Baumé = M − M/SG. NaN outside SG 0.980–1.400.</summary>
    public static double BaumeFromGravity(double gravity, double modulus) => Gravity.Contains(gravity) && modulus > 0 ? modulus * (1 - (1 / gravity)) : double.NaN;

    /// <summary>SG = M / (M − °Bé).</summary>
    public static double GravityFromBaume(double baume, double modulus)
    {
        double gravity = modulus / (modulus - baume);
        return Gravity.Contains(gravity) ? gravity : double.NaN;
    }
}
