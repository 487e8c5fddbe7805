using System.Collections.Frozen;
using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Costing;

/// <summary>What becomes of the cost of what goes out.</summary>
public enum LossRule
{
    /// <summary>It goes along: sold, given away, drunk, used.</summary>
    Leaves,
    /// <summary>It stays in what remains: lees, evaporation, hoses.</summary>
    Normal,
    /// <summary>It goes along and is shown apart: a mishap.</summary>
    Abnormal,
}

/// <summary>Which losses are normal: seed/records/losses.csv. Common practice in costing, no source; change the file where yours differs.</summary>
public static class LossRules
{
    private static readonly FrozenDictionary<string, LossRule> Stated = Seed.Rows("seed/records/losses.csv").ToFrozenDictionary(row => row["category"], row => row["loss"] == "normal" ? LossRule.Normal : LossRule.Abnormal, StringComparer.Ordinal);

    /// <summary>Categories the file names.</summary>
    public static IEnumerable<string> Categories => Stated.Keys;

    /// <summary>The rule for a category; a loss the file doesn't name is shown apart.</summary>
    public static LossRule Of(Category category) => Stated.TryGetValue(category.Code, out var rule) ? rule : IsLoss(category) ? LossRule.Abnormal : LossRule.Leaves;

    /// <summary>True for a category that ends as loss, by-product or adjustment.</summary>
    public static bool IsLoss(Category category) => category.To.Counters.Select(Account.Counter).Any(account => account.IsLoss || account.IsByProduct || account.IsAdjustment);
}
