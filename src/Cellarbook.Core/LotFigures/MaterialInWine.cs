using System.Text.RegularExpressions;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Operations;
using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.LotFigures;

/// <summary>What a material that went in does to the strength: sugar and water are reckoned, small doses change nothing, the rest is unknown.</summary>
internal static partial class MaterialInWine
{
    // Two grams of sugar in a litre make 0.12 % vol, a millilitre of pure alcohol 0.1 % vol: what is less bears on no estimate.
    private const double SmallGramsPerLitre = 2, SmallMillilitresPerLitre = 5, SmallMillilitresOfSpiritPerLitre = 1;

    /// <summary>The step that an item is, or null when it changes nothing; with the words for it.</summary>
    /// <param name="item">What went in.</param>
    /// <param name="litres">The volume it went into.</param>
    public static (StrengthStep Step, Sentence Words)? StepOf(Add.Item item, double litres)
    {
        string name = item.Material ?? "";
        double? grams = item.Grams?.Milligrams / 1000.0 ?? item.GramsPerHectolitre?.Value * litres / 100 ?? item.MgPerLitre?.Value * litres / 1000;
        double? millilitres = item.Millilitres?.Volume.Microlitres / 1000.0;
        if (item.RiseBy == "sugar" || (DrySugar().IsMatch(name) && !Sweet().IsMatch(name)))
        {
            // Dextrose and the like are fermentable whole; sucrose of the same mass gives a twentieth more.
            double share = Hexose().IsMatch(name) ? Enrichment.SucrosePerHexose : 1;
            double? kilograms = grams * share / 1000 ?? (item.RiseLitres is { } rise ? rise.Microlitres / 1e6 / Enrichment.DissolvedMillilitresPerGram : null);
            return kilograms is { } known ? (new StrengthStep.SugarAdded(known), $"+ {Typed(Math.Round(known, 4))} kg {name}") : Unknown(name);
        }
        if (item.RiseBy == "water" || name.Equals("water", StringComparison.OrdinalIgnoreCase))
        {
            double? water = item.RiseLitres is { } rise ? rise.Microlitres / 1e6 : millilitres / 1000 ?? grams / 1000;
            return water is { } known ? (new StrengthStep.WaterAdded(known), $"+ {Typed(known)} L water") : Unknown(name);
        }
        bool strong = Strong().IsMatch(name), matters = strong || Sweet().IsMatch(name);
        if (grams is null && millilitres is null) return matters ? Unknown(name) : null;
        double most = (strong ? SmallMillilitresOfSpiritPerLitre : SmallMillilitresPerLitre) * litres;
        return grams > SmallGramsPerLitre * litres || millilitres > most ? Unknown(name) : null;
    }

    private static (StrengthStep Step, Sentence Words) Unknown(string name) => (new StrengthStep.UnknownAdded(Sentence.Verbatim(name)), $"+ {name}, of which sugar and alcohol are not known");

    [GeneratedRegex(@"\b(sugar|sucrose|saccharose|dextrose|glucose|fructose)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex DrySugar();

    [GeneratedRegex(@"\b(dextrose|glucose|fructose|grape sugar)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Hexose();

    [GeneratedRegex(@"\b(juice|concentrate|honey|syrup|molasses|invert)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Sweet();

    [GeneratedRegex(@"\b(spirit|brandy|alcohol|ethanol|vodka|liqueur)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Strong();
}
