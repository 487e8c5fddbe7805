using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Limits;

/// <summary>How much more of a product may be added.</summary>
/// <param name="Product">The product.</param>
/// <param name="Most">The most of it, over the whole volume; null when no figure limits it.</param>
/// <param name="HeldBy">The verdict that holds it back; null when none does.</param>
/// <param name="CannotSay">Verdicts that a fact is missing for: the room may be less.</param>
public sealed record Room(Substance Product, SubstanceAmount? Most, Verdict? HeldBy, IReadOnlyList<Verdict> CannotSay)
{
    /// <summary>
    /// The room for a product in a wine against sets: the least that any limit on it, or on what it counts towards, leaves. Cut down to the whole ng.
    /// </summary>
    /// <param name="sets">The sets.</param>
    /// <param name="wine">The wine.</param>
    /// <param name="product">What would be added, at the wine's stage.</param>
    public static Room Of(IEnumerable<LimitSet> sets, WineRecord wine, Substance product)
    {
        // A trace of it makes every limit on it speak, without using up room.
        var traced = wine.Substances;
        foreach (var (substance, _) in Substances.Counted(product, SubstanceAmount.None))
            if (!traced.ContainsKey(substance)) traced = traced.SetItem(substance, new(substance));
        var asked = wine with { Substances = traced };
        SubstanceAmount? most = null;
        Verdict? heldBy = null;
        var unknown = new List<Verdict>();
        foreach (var verdict in Judgement.Of(sets, asked).SelectMany(of => of.Verdicts))
        {
            if (verdict.Substance != product && product.Towards.All(towards => towards.Other != verdict.Substance)) continue;
            if (verdict.Basis == LimitBasis.AddedDose && verdict.Row is { } row && (row.Stages & wine.Stage) == 0) continue;
            if (verdict.Kind == VerdictKind.CannotSay) unknown.Add(verdict);
            var room = verdict.Kind == VerdictKind.Over ? SubstanceAmount.None : verdict.Room;
            if (room is not { } left) continue;
            var ofProduct = OfProduct(product, verdict.Substance, left);
            if (most is null || ofProduct.CompareTo(most.Value) < 0) (most, heldBy) = (ofProduct, verdict);
        }
        return new(product, most, heldBy, unknown);
    }

    /// <summary>
    /// The most of a material that a wine may take by all that it brings, in whole units of it; null where no figure limits it, or its packet leaves
    /// open what it holds.
    /// </summary>
    public static MaterialAmount? Of(IReadOnlyCollection<LimitSet> sets, WineRecord wine, Material material)
    {
        if (material.Unstated.Count > 0) return null;
        MaterialAmount? most = null;
        // Its own packet holds as soon as something of it is in.
        LimitSet[] held = material.Packet is { } packet ? [.. sets, packet] : [.. sets];
        foreach (var content in material.Contents.Where(content => content.PerUnit.IsPositive))
            if (Of(held, wine, content.Substance).Most is { } room && new MaterialAmount(room.Nanograms / content.PerUnit.Nanograms) is var units && (most is null || units < most)) most = units;
        return most;
    }

    /// <summary>How much of a product holds so much of what it counts towards; cut down to the whole ng.</summary>
    public static SubstanceAmount OfProduct(Substance product, Substance counted, SubstanceAmount amount)
    {
        if (product == counted) return amount;
        var towards = product.Towards.FirstOrDefault(one => one.Other == counted) ?? throw new ArgumentException($"{product.Code} doesn't count towards {counted.Code}.", nameof(counted));
        return new((long)Int128.Min((Int128)amount.Nanograms * towards.Denominator / towards.Numerator, long.MaxValue));
    }
}
