using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// States of a wine what limits ask and no volume tells: colour, schemes, cases, zone, type. It holds from then on and follows the wine; an empty
/// list takes back what was stated.
/// </summary>
public sealed record Describe : NoteOperation
{
    /// <summary>Schemes it is made under, such as organic.</summary>
    public IReadOnlyList<string>? Schemes { get; init; }

    /// <summary>Cases that limits speak of, such as list-300, exceptional-year, for-microbes.</summary>
    public IReadOnlyList<string>? Cases { get; init; }

    /// <summary>Wine-growing zone: A, B, CI, CII, CIII.</summary>
    public string? Zone { get; init; }

    /// <summary>still, semi-sparkling, carbonated, sparkling, quality-sparkling, liqueur, partially-fermented, not-of-grapes.</summary>
    public string? Type { get; init; }

    /// <summary>Natural strength of the must before any sugar went in, from its must weight: what enrichment is counted from.</summary>
    public Strength? NaturalAbv { get; init; }

    /// <summary>Fixed acid of the juice before fermentation, g/L as tartaric acid: what amelioration is counted from.</summary>
    public Reading? FixedAcidGramsPerLitre { get; init; }

    internal override void Decide(Deciding deciding)
    {
        deciding.PlaceOf(Lot, Vessel, "");
        if (Colour is null && Schemes is null && Cases is null && Zone is null && Type is null && NaturalAbv is null && FixedAcidGramsPerLitre is null) deciding.Refuse(RefusalCode.Missing, "colour", "Say something of the wine: colour, schemes, cases, zone, type, natural strength or fixed acid.");
        if (FixedAcidGramsPerLitre is { } acid && (Acid is null || acid.Value is <= 0 or > 100)) deciding.Refuse(acid.Value <= 0 ? RefusalCode.NotPositive : RefusalCode.TooLargeNumber, "fixedAcidGramsPerLitre", "A fixed acid lies above nil and below 100 g/L.");
        if (Colour is not null && LimitWords.ColourOf(Colour) is null) deciding.Refuse(RefusalCode.UnknownWord, "colour", $"“{Names.Shown(Colour)}” is no colour that limits know. Say white, rosé or red.");
        if (Zone is not null && !LimitWords.Zones.Contains(Zone)) deciding.Refuse(RefusalCode.UnknownWord, "zone", $"“{Names.Shown(Zone)}” is no zone. Use {string.Join(", ", LimitWords.Zones)}.");
        if (Type is not null && Type != LimitWords.NotOfGrapes && !LimitWords.Products.ContainsKey(Type)) deciding.Refuse(RefusalCode.UnknownWord, "type", $"“{Names.Shown(Type)}” is no type of wine. Use {string.Join(", ", LimitWords.Products.Keys.Append(LimitWords.NotOfGrapes))}.");
        CheckWords(deciding, Schemes, "schemes", row => row.Scheme);
        CheckWords(deciding, Cases, "cases", row => row.Case);
    }

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with
    {
        Facts = notes.Facts with
        {
            Schemes = Schemes is null ? notes.Facts.Schemes : [.. Schemes], Cases = Cases is null ? notes.Facts.Cases : [.. Cases],
            Zone = Zone ?? notes.Facts.Zone, Type = Type ?? notes.Facts.Type, NaturalStrength = NaturalAbv ?? notes.Facts.NaturalStrength, FixedAcid = Acid ?? notes.Facts.FixedAcid,
        },
    };

    private Dose? Acid => FixedAcidGramsPerLitre is { } acid && Dose.ReadGramsPerLitre(acid.Text, out var dose) == ExactNumber.Fault.None ? dose : null;

    private static void CheckWords(Deciding deciding, IReadOnlyList<string>? words, string path, Func<LimitRow, string> of)
    {
        for (var i = 0; i < (words?.Count ?? 0); i++)
        {
            var word = words![i];
            if (word.Length is 0 or > 60 || !word.All(c => c is >= 'a' and <= 'z' or >= '0' and <= '9' or '-')) deciding.Refuse(RefusalCode.UnknownWord, $"{path}[{i}]", "Write a word of small letters, digits and hyphens, as the limit sets have it.");
            else if (!LawSets.All.Any(set => set.Rows.Any(row => of(row) == word))) deciding.Raise("not_in_a_law", $"No law here speaks of “{word}”. It counts for your own limit sets alone.");
        }
    }
}
