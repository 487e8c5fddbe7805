namespace Cellarbook.Core.Limits;

/// <summary>Does a row speak of a wine?</summary>
internal enum Speaks
{
    /// <summary>It doesn't.</summary>
    No,
    /// <summary>It depends on a fact that isn't known.</summary>
    Perhaps,
    /// <summary>It does.</summary>
    Yes,
}

/// <summary>Holds the scope of a row against the facts of a wine. The case is settled among all rows of a substance, not here.</summary>
internal static class RowScope
{
    /// <summary>Does it speak of this wine; names of facts that are missing go to <paramref name="missing"/>.</summary>
    public static Speaks Of(LimitRow row, WineRecord wine, List<Sentence> missing)
    {
        if (row.Scheme.Length > 0 && !wine.Schemes.Contains(row.Scheme)) return Speaks.No;
        if (row.From > wine.ProductionDay || row.To < wine.ProductionDay) return Speaks.No;
        if (wine.Colour is { } colour && (row.Colours & colour) == 0) return Speaks.No;
        if (wine.Product is { } product && (row.Products & product) == 0) return Speaks.No;
        if (wine.Sugar is { } sugar && row.Sugar is { } sugars && !sugars.Holds(sugar.NanogramsPerLitre)) return Speaks.No;
        if (wine.Strength is { } strength && row.Strength is { } strengths && !strengths.Holds(strength.Hundredths)) return Speaks.No;
        if (wine.Zone is { } zone && row.Zones.Count > 0 && !row.Zones.Contains(zone)) return Speaks.No;
        if (row.HarvestFrom is { } first && wine.HarvestTo is { } last && last < first) return Speaks.No;
        if (row.HarvestTo is { } end && wine.HarvestFrom is { } start && start > end) return Speaks.No;
        if (row.With is { } with && !(wine.Substances.GetValueOrDefault(with) is { } other && (other.AddedInMust.IsPositive || other.AddedInWine.IsPositive || other.HasUnstated))) return Speaks.No;

        var before = missing.Count;
        if (wine.Colour is null && row.Colours != WineColours.All) missing.Add("colour");
        if (wine.Product is null && row.Products != WineProducts.All) missing.Add("kind of wine");
        if (wine.Sugar is null && row.Sugar is not null) missing.Add("residual sugar");
        if (wine.Strength is null && row.Strength is not null) missing.Add("strength");
        if (wine.Zone is null && row.Zones.Count > 0) missing.Add("wine-growing zone");
        if ((row.HarvestFrom is not null && wine.HarvestTo is null) || (row.HarvestTo is not null && wine.HarvestFrom is null)) missing.Add("harvest year");
        return missing.Count == before ? Speaks.Yes : Speaks.Perhaps;
    }
}
