namespace Cellarbook.Core.Chemistry;

/// <summary>°Brix and °Plato from specific gravity 20/20.</summary>
public static class BrixScale
{
    /// <summary>Gravities over which the NBS fit was made.</summary>
    public static readonly ValidRange Gravity = new(1.000, 1.179, "SG 20/20");

    /// <summary>Gravities down to which a Brix hydrometer is graduated below zero: apparent °Brix of fermented wine, an extrapolation that says so.</summary>
    public static readonly ValidRange ApparentGravity = new(0.980, 1.179, "SG 20/20");

    /// <summary>°Brix of the fit.</summary>
    public static readonly ValidRange Degrees = new(0, 40, "°Brix");

    /// <summary>Brix by the cubic.</summary>
    public static readonly Formula Nbs = new("NBS Circular 440 cubic", "NBS Circular 440, fit to its Brix and apparent SG 20/20 table", SourceCheck.Read,
        "SG 1.000 to 1.179 (0 to 40 °Brix); below 1.000 an extrapolation for fermented wine, down to 0.980");

    /// <summary>Plato by the cubic.</summary>
    public static readonly Formula Asbc = new("ASBC Plato cubic", "ASBC table polynomial", SourceCheck.Read, "SG 1.000 to 1.179");

    /// <summary>°Brix; below SG 1.000 apparent and extrapolated. NaN outside SG 0.980–1.179.</summary>
    public static double FromGravity(double gravity) => ApparentGravity.Contains(gravity)
        ? (((((182.46007 * gravity) - 775.68212) * gravity) + 1262.7794) * gravity) - 669.56218
        : double.NaN;

    /// <summary>SG 20/20 (apparent, in air) of a °Brix between 0 and 40, by inverting the cubic.</summary>
    public static double ToGravity(double brix) => Degrees.Contains(brix) ? Roots.Between(new Curve(brix), 0.985, 1.20) : double.NaN;

    /// <summary>°Plato; apparent below SG 1.000. NaN outside SG 0.980–1.179.</summary>
    public static double PlatoFromGravity(double gravity) => ApparentGravity.Contains(gravity)
        ? (((((135.997 * gravity) - 630.272) * gravity) + 1111.14) * gravity) - 616.868
        : double.NaN;

    private readonly record struct Curve(double Brix) : ICurve
    {
        public double At(double x) => (((((182.46007 * x) - 775.68212) * x) + 1262.7794) * x) - 669.56218 - Brix;
    }
}
