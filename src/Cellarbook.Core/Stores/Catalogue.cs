using System.Collections.Frozen;
using System.Globalization;
using Cellarbook.Core.Facts;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>Every material known: those of seed/materials and the maker's own.</summary>
public sealed class Catalogue
{
    private static readonly FrozenDictionary<string, Material> Seeded = Load();
    private static readonly FrozenDictionary<string, Material> ByName = Names(Seeded.Values.OrderBy(material => material.Code, StringComparer.Ordinal));
    private readonly Dictionary<string, Material> own = new(StringComparer.Ordinal);

    /// <summary>The materials of the catalogue alone, in the order of the file.</summary>
    public static IReadOnlyList<Material> Generic { get; } = [.. Seed.Rows("seed/materials/materials.csv").Select(row => Seeded[row["code"]])];

    /// <summary>All of them: the catalogue's, then the maker's own by code.</summary>
    public IEnumerable<Material> All => Generic.Where(material => !own.ContainsKey(material.Code)).Concat(own.Values.OrderBy(material => material.Code, StringComparer.Ordinal));

    /// <summary>The material of that code; null when there is none.</summary>
    public Material? Find(string code) => own.GetValueOrDefault(code) ?? Seeded.GetValueOrDefault(code);

    /// <summary>
    /// The material that a word means: a code, else a name or synonym of the catalogue, capitals aside. Null for free text that is none of them.
    /// </summary>
    public Material? Meant(string word) => Find(word) ?? own.Values.FirstOrDefault(material => string.Equals(material.Name, word, StringComparison.OrdinalIgnoreCase)) ?? ByName.GetValueOrDefault(word);

    internal void Put(Material material) => own[material.Code] = material;

    private static FrozenDictionary<string, Material> Names(IEnumerable<Material> materials)
    {
        var names = new Dictionary<string, Material>(StringComparer.OrdinalIgnoreCase);
        foreach (var material in materials)
            foreach (var name in material.Synonyms.Prepend(material.Name)) names.TryAdd(name, material);
        return names.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }

    private static FrozenDictionary<string, Material> Load()
    {
        var contents = Seed.Rows("seed/materials/contents.csv").ToLookup(row => row["material"]);
        var kits = Seed.Rows("seed/materials/kits.csv").ToLookup(row => row["kit"]);
        var packets = Seed.Rows("seed/materials/packets.csv").ToLookup(row => row["material"]);
        return Seed.Rows("seed/materials/materials.csv").Select(row => Read(row, contents[row["code"]], kits[row["code"]]).Stating(packets[row["code"]])).ToFrozenDictionary(material => material.Code, StringComparer.Ordinal);
    }

    private static Material Read(IReadOnlyDictionary<string, string> row, IEnumerable<IReadOnlyDictionary<string, string>> contents, IEnumerable<IReadOnlyDictionary<string, string>> kit)
    {
        var unit = row["unit"] switch { "mg" => MaterialUnit.Milligrams, "uL" => MaterialUnit.Microlitres, _ => MaterialUnit.Pieces };
        var parts = kit.ToArray();
        return new Material
        {
            Code = row["code"],
            Name = row["name"],
            Kind = row["kind"],
            Unit = unit,
            Synonyms = row["synonyms"].Split('|', StringSplitOptions.RemoveEmptyEntries),
            GramsPerLitre = Whole(row["density_g_per_l"]) is { } density ? new(density * 1_000) : null,
            PieceWeight = Whole(row["piece_mg"]) is { } piece ? new(piece) : null,
            Allergen = row["allergen"],
            ENumber = row["e_number"],
            Role = row["role"],
            Band = row["low_per_hl"].Length == 0 ? null : new(Amount(row["low_per_hl"], unit), Amount(row["high_per_hl"], unit), row["band_source"]),
            Cautions = row["cautions"].Split('|', StringSplitOptions.RemoveEmptyEntries),
            Note = row["note"],
            Contents = [.. contents.Where(content => content["ng_per_unit"].Length > 0).Select(content => new MaterialContent(Substances.Find(content["substance"])!, new(Whole(content["ng_per_unit"])!.Value), content["arithmetic"], content["source"], content["seen"]))],
            Unstated = [.. contents.Where(content => content["ng_per_unit"].Length == 0).Select(content => Substances.Find(content["substance"])!)],
            Kit = parts.Length == 0 ? null : new(Volume.OfMillilitres(Whole(parts[0]["concentrate_ml"])!.Value), Volume.OfMillilitres(Whole(parts[0]["mark_ml"])!.Value), [.. parts.Select(part => new KitPart(part["part"], new(Whole(part["pieces"])!.Value)))]),
        };
    }

    private static long? Whole(string text) => text.Length == 0 ? null : long.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);

    /// <summary>An amount as the file has it: grams, millilitres or pieces; pieces in a band are of a hectolitre and may be broken, so they round up.</summary>
    private static MaterialAmount Amount(string text, MaterialUnit unit)
    {
        ExactNumber.Read(text, 3, out var thousandths);
        return new(unit == MaterialUnit.Pieces ? (thousandths + 999) / 1_000 : thousandths);
    }
}
