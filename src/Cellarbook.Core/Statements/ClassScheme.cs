using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A class as a regime names it.</summary>
/// <param name="Code">Its code in files.</param>
/// <param name="Words">What pages say.</param>
/// <param name="OutsideForms">True when an authority's form has no column for it.</param>
public sealed record WineClass(string Code, Sentence Words, bool OutsideForms)
{
    internal ProductKind? Kind { get; init; }

    internal int? Over { get; init; }

    internal int? UpTo { get; init; }
}

/// <summary>
/// What a standing is called: read from seed/regimes/classes.json. A class is worked out whenever it is asked for and never stored.
/// </summary>
public sealed class ClassScheme
{
    private readonly Dictionary<string, WineClass> byCode;

    private ClassScheme(IReadOnlyList<WineClass> classes)
    {
        Classes = classes;
        byCode = classes.ToDictionary(wine => wine.Code, StringComparer.Ordinal);
        Unstated = classes.Single(wine => wine is { Kind: null });
    }

    /// <summary>The scheme by kinds and strength bands that both forms here use.</summary>
    public static ClassScheme Default { get; } = Load("seed/regimes/classes.json");

    /// <summary>Every class, in the order of the form's columns.</summary>
    public IReadOnlyList<WineClass> Classes { get; }

    /// <summary>The class of wine whose strength is not stated.</summary>
    public WineClass Unstated { get; }

    /// <summary>The class of a standing.</summary>
    public WineClass Of(Standing standing)
    {
        foreach (var wine in Classes)
        {
            if (wine.Kind != standing.Kind) continue;
            if (wine.Over is null && wine.UpTo is null) return wine;
            if (standing.Strength is not { } strength) return Unstated;
            if ((wine.Over is null || strength.Hundredths > wine.Over) && (wine.UpTo is null || strength.Hundredths <= wine.UpTo)) return wine;
        }
        return Unstated;
    }

    /// <summary>The class of that code.</summary>
    public WineClass Named(string code) => byCode[code];

    /// <summary>True when there is a class of that code.</summary>
    public bool Knows(string code) => byCode.ContainsKey(code);

    /// <summary>The kind a class is of; null for the unstated one.</summary>
    public ProductKind? KindOf(string code) => byCode[code].Kind;

    /// <summary>Place of a class in the order of columns.</summary>
    public int OrderOf(string code)
    {
        for (var i = 0; i < Classes.Count; i++)
            if (Classes[i].Code == code) return i;
        return -1;
    }

    private static ClassScheme Load(string path)
    {
        using var document = JsonDocument.Parse(Seed.Text(path));
        return new([.. document.RootElement.GetProperty("classes").EnumerateArray().Select(element => new WineClass(
            element.GetProperty("code").GetString()!, Sentence.Seed(element.GetProperty("words").GetString()!), element.TryGetProperty("outsideForms", out var outside) && outside.GetBoolean())
        {
            Kind = element.TryGetProperty("kind", out var kind) ? Enum.Parse<ProductKind>(kind.GetString()!, ignoreCase: true) : null,
            Over = Bound(element, "overPercent"),
            UpTo = Bound(element, "upToPercent"),
        })]);
    }

    private static int? Bound(JsonElement element, string name)
    {
        if (!element.TryGetProperty(name, out var bound)) return null;
        Strength.ReadPercent(bound.GetRawText(), out var strength);
        return strength.Hundredths;
    }
}
