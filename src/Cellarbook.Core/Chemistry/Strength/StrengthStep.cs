namespace Cellarbook.Core.Chemistry;

/// <summary>One thing that happened to a wine and bears on its strength. Volumes at 20 °C in litres, gravities 20/20.</summary>
public abstract record StrengthStep
{
    private StrengthStep()
    {
    }

    /// <summary>The must before fermentation.</summary>
    public sealed record FirstGravity(double Litres, double Gravity) : StrengthStep;

    /// <summary>Wine of known strength to begin with, as received or declared; its gravity may be unknown. Stated: nobody here measured it.</summary>
    public sealed record FirstWine(double Litres, double Abv, double? Gravity, bool Stated = false) : StrengthStep;

    /// <summary>Dry sugar went in (sucrose).</summary>
    public sealed record SugarAdded(double Kilograms) : StrengthStep;

    /// <summary>Juice, must or concentrate went in.</summary>
    public sealed record JuiceAdded(double Litres, double Gravity) : StrengthStep;

    /// <summary>Water went in.</summary>
    public sealed record WaterAdded(double Litres) : StrengthStep;

    /// <summary>Wine went in; what is not known of it is null.</summary>
    public sealed record WineAdded(double Litres, double? Abv, double? Gravity, double? ResidualSugarGramsPerLitre) : StrengthStep;

    /// <summary>Spirit without extract went in.</summary>
    public sealed record SpiritAdded(double Litres, double Abv) : StrengthStep;

    /// <summary>So much was drawn, lost or racked elsewhere.</summary>
    public sealed record Taken(double Litres) : StrengthStep;

    /// <summary>So much of the whole is left after draws and losses, 0 to 1; above one where more of the same was found.</summary>
    public sealed record Kept(double Share) : StrengthStep;

    /// <summary>A gravity was read, corrected to 20/20.</summary>
    public sealed record GravityRead(double Gravity) : StrengthStep;

    /// <summary>The strength was measured (distillation, analysis).</summary>
    public sealed record StrengthMeasured(double Abv) : StrengthStep;

    /// <summary>Residual sugar was measured, g/L.</summary>
    public sealed record ResidualSugarMeasured(double GramsPerLitre) : StrengthStep;

    /// <summary>Something went in that cannot be reckoned; why is said.</summary>
    public sealed record UnknownAdded(Sentence What) : StrengthStep;
}
