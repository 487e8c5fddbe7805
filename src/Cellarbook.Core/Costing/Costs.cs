using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>What wine cost, by what it was spent on. Whole millionths of the currency's unit; every split adds up, kind by kind (law 7).</summary>
/// <param name="Fruit">Fruit, juice, must, concentrate, kits.</param>
/// <param name="Wine">Wine bought.</param>
/// <param name="Spirit">Spirit for fortifying.</param>
/// <param name="Materials">Materials put in.</param>
/// <param name="Packaging">Bottles, corks, capsules, labels.</param>
/// <param name="Own">Own costs stated: work, energy, rent.</param>
public readonly record struct Costs(Money Fruit, Money Wine, Money Spirit, Money Materials, Money Packaging, Money Own)
{
    /// <summary>None.</summary>
    public static readonly Costs None;

    /// <summary>All together.</summary>
    public Money Total => Fruit + Wine + Spirit + Materials + Packaging + Own;

    /// <summary>True when every kind is nil.</summary>
    public bool IsNil => this == None;

    /// <summary>What goes with so many parts of a whole, and what remains; the part first where a millionth is over.</summary>
    public (Costs Goes, Costs Remains) Split(long parts, long of)
    {
        if (IsNil || parts >= of) return (this, None);
        if (parts <= 0) return (None, this);
        var shares = Share([parts, of - parts]);
        return (shares[0], shares[1]);
    }

    /// <summary>Shares by weight, kind by kind, largest remainder, ties to the earlier.</summary>
    public Costs[] Share(ReadOnlySpan<long> weights)
    {
        var (fruit, wine, spirit) = (Parts(Fruit, weights), Parts(Wine, weights), Parts(Spirit, weights));
        var (materials, packaging, own) = (Parts(Materials, weights), Parts(Packaging, weights), Parts(Own, weights));
        var shares = new Costs[weights.Length];
        for (var i = 0; i < shares.Length; i++) shares[i] = new(new(fruit[i]), new(wine[i]), new(spirit[i]), new(materials[i]), new(packaging[i]), new(own[i]));
        return shares;
    }

    /// <summary>Of each kind the less of the two.</summary>
    public Costs AtMost(Costs other) => new(Least(Fruit, other.Fruit), Least(Wine, other.Wine), Least(Spirit, other.Spirit), Least(Materials, other.Materials), Least(Packaging, other.Packaging), Least(Own, other.Own));

    /// <summary>The sum.</summary>
    public static Costs operator +(Costs a, Costs b) => new(a.Fruit + b.Fruit, a.Wine + b.Wine, a.Spirit + b.Spirit, a.Materials + b.Materials, a.Packaging + b.Packaging, a.Own + b.Own);

    /// <summary>The difference.</summary>
    public static Costs operator -(Costs a, Costs b) => new(a.Fruit - b.Fruit, a.Wine - b.Wine, a.Spirit - b.Spirit, a.Materials - b.Materials, a.Packaging - b.Packaging, a.Own - b.Own);

    private static long[] Parts(Money money, ReadOnlySpan<long> weights) => LargestRemainder.Split(money.Millionths, weights);

    private static Money Least(Money a, Money b) => a < b ? a : b;
}
