using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>What a label has to say of allergens.</summary>
/// <param name="Substance">Of what.</param>
/// <param name="Needed">True when the statement is needed; null when a test has to decide.</param>
/// <param name="Why">In words.</param>
/// <param name="Source">Where it is written.</param>
/// <param name="Seen">True if that text was read.</param>
public sealed record AllergenStatement(string Substance, bool? Needed, Sentence Why, string Source, bool Seen)
{
    /// <summary>Sulphites: more than 10 in the EU and UK, 10 or more in the US.</summary>
    /// <param name="regime">EU, UK or US.</param>
    /// <param name="totalSo2">Total sulphur dioxide.</param>
    public static AllergenStatement Sulphites(string regime, Dose totalSo2)
    {
        var rule = LabelRules.Find(regime, "allergen", regime == "US" ? "sulfites threshold" : "sulphites threshold");
        var threshold = (long)(rule.Number * 1_000_000m);
        var needed = regime == "US" ? totalSo2.NanogramsPerLitre >= threshold : totalSo2.NanogramsPerLitre > threshold;
        return new("sulphites", needed, regime == "US" ? (Sentence)$"{totalSo2} total SO2; stated from {rule.Value} mg/L" : (Sentence)$"{totalSo2} total SO2; stated above {rule.Value} mg/L", rule.Source, rule.Seen);
    }

    /// <summary>A fining agent in the EU and UK: egg and milk where a test finds them, fish not at all.</summary>
    public static AllergenStatement? Fining(Substance substance)
    {
        var parameter = substance.Allergen switch { "egg" => "egg fining", "milk" => "milk fining", "fish" => "isinglass and fish gelatine", _ => null };
        if (parameter is null) return null;
        var rule = LabelRules.Find("EU", "allergen", parameter);
        return new(substance.Allergen, rule.Value == "exempt" ? false : null, Sentence.Seed(rule.Condition), rule.Source, rule.Seen);
    }
}
