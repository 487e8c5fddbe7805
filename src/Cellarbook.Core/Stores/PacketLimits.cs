using System.Globalization;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>
/// What a packet or a kit's box allows, as a limit set of its own: at most so much of the product itself, which is then counted as a substance like
/// any other; and rows in the form of every limit set. It holds for the wine that something of the packet is in, and nobody has to file it.
/// </summary>
internal static class PacketLimits
{
    /// <summary>Units of a product counted as a substance: a million to each of its own.</summary>
    private const long UnitsOfOne = 1_000_000;

    /// <summary>A material with what its packet allows, of the rows of seed/materials/packets.csv.</summary>
    public static Material Stating(this Material material, IEnumerable<IReadOnlyDictionary<string, string>> rows)
    {
        var (most, lines) = ((MaterialAmount?)null, new List<LimitLine>());
        var (within, source) = (Volume.None, "");
        foreach (var row in rows)
            if (row["at_most"].Length > 0) (most, within, source) = (new(Whole(row["at_most"])), Volume.OfMillilitres(Whole(row["in_ml"])), row["source"]);
            else lines.Add(LimitLine.Of(row) with { Seen = "text" });
        return material.Stating(most, within, lines, source);
    }

    /// <summary>A material with what its packet allows: at most so much of it in a volume, and rows of a limit set that can be read.</summary>
    public static Material Stating(this Material material, MaterialAmount? most, Volume within, IReadOnlyList<LimitLine> lines, string source)
    {
        if (most is null && lines.Count == 0) return material;
        var about = About(material.Code, material.Name);
        var rows = lines.Count == 0 ? [] : (LimitSetReader.Read(lines, about).Set ?? throw new InvalidOperationException($"The packet of {material.Code} can't be read.")).Rows;
        if (most is not { } amount) return material with { Packet = about with { Rows = rows } };
        var itself = new Substance("packet." + material.Code, material.Name, material.ENumber, "product", "", "", source, true, "") { Unit = material.Unit };
        // Up to the whole unit, so that exactly what the packet allows passes.
        var perLitre = (long)(((Int128)amount.Units * UnitsOfOne * UnitsOfOne + within.Microlitres - 1) / within.Microlitres);
        var row = new LimitRow
        {
            Number = rows.Count + 1, Substances = [itself], Basis = LimitBasis.AddedDose, Kind = LimitKind.Max, Value = new(LimitUnit.PerLitre, perLitre, $"{material.Say(amount)} in {within}") { Words = Words(material, amount, within) }, Source = source, Seen = true,
        };
        return material with
        {
            Packet = about with { Rows = [.. rows, row] },
            Contents = [new MaterialContent(itself, new(UnitsOfOne), "the product itself", source, "definition"), .. material.Contents],
        };
    }

    private static Sentence Words(Material material, MaterialAmount amount, Volume within) => material.Unit != MaterialUnit.Pieces ? $"{material.Say(amount):figure} in {within}"
        : amount.Units == 1 ? (Sentence)$"1 piece in {within}" : (Sentence)$"{amount.Units} pieces in {within}";

    /// <summary>The set's heading.</summary>
    public static LimitSet About(string code, string name) => new() { Code = code, Name = name, Kind = "packet", Rows = [] };

    private static long Whole(string text) => long.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);
}
