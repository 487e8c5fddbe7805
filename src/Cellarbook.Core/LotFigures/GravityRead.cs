using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Operations;
using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.LotFigures;

/// <summary>A reading of gravity, brought to 20 °C as far as the entry tells how.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Day">Its day.</param>
/// <param name="Gravity">SG 20/20, or as read where nothing tells how to correct it.</param>
/// <param name="How">The reading in words.</param>
/// <param name="Corrected">Gives the correction as a figure; null where the temperature of the sample wasn't noted or the reading is outside the formula.</param>
internal sealed record GravityRead(long Entry, DateOnly Day, double Gravity, Sentence How, Func<Explained>? Corrected)
{
    private const double UsualCalibrationCelsius = 20;

    /// <summary>A hydrometer reading.</summary>
    /// <param name="deed">Where it was noted.</param>
    /// <param name="measure">The readings.</param>
    /// <param name="abv">Strength of the wine, roughly; nil for must.</param>
    public static GravityRead By(Deed deed, Measure measure, double abv)
    {
        double read = measure.Gravity!.Value.Value;
        if (measure.Celsius is not { } celsius) return new(deed.Entry, deed.Day, read, $"gravity {measure.Gravity.Value.Text}, temperature not noted", null);
        double t = celsius.Value, calibration = measure.CalibrationCelsius?.Value ?? UsualCalibrationCelsius, glass = Alcoholmeter.SodaLimeGlassPerKelvin;
        bool asWine = abv > 0 && read <= 1.05;
        double at20 = asWine ? Hydrometer.InWineAt20(read, t, calibration, Math.Min(abv, 25), glass) : Hydrometer.InMustAt20(read, t, calibration, glass);
        Sentence how = $"gravity {measure.Gravity.Value.Text} at {celsius.Text} °C";
        if (!double.IsFinite(at20)) return new(deed.Entry, deed.Day, read, $"{how}, outside what can be corrected", null);
        return new(deed.Entry, deed.Day, at20, how, () => Explain(measure, read, t, calibration, asWine ? abv : null, at20));
    }

    private static Explained Explain(Measure measure, double read, double t, double calibration, double? abv, double at20) =>
        (abv is null ? Hydrometer.Must : Hydrometer.Wine).Explain("gravity20", "Gravity, corrected to 20 °C", at20, "SG 20/20", 4,
            $"{Typed(read)} read at {Typed(t)} °C, instrument of soda-lime glass for {Typed(calibration)} °C, {(abv is { } strength ? $"wine of about {Number(strength, 1)} % vol" : "must")}, brought to 20 °C") with
        {
            EntryField = "gravity",
            Caution = measure.CalibrationCelsius is null ? "Assumed: a hydrometer of soda-lime glass that is right at 20 °C; note its own calibration temperature with the reading." : null,
        };

    /// <summary>A sugar scale read in must before fermentation.</summary>
    public static GravityRead? ByScale(Deed deed, Measure measure)
    {
        var (gravity, text) = measure.Brix is { } brix ? (BrixScale.ToGravity(brix.Value), $"{brix.Text} °Brix")
            : measure.Oechsle is { } oechsle ? (MustScales.GravityFromOechsle(oechsle.Value), $"{oechsle.Text} °Oechsle") : (double.NaN, "");
        return double.IsFinite(gravity) ? new(deed.Entry, deed.Day, gravity, $"{text}, which is SG {Number(gravity, 4)}", null) : null;
    }
}
