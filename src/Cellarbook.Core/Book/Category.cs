using System.Collections.Frozen;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Book;

/// <summary>
/// What kind of event a posting is, with the accounts it may run between and the line of an authority's form that each side feeds.
/// All come from seed/records/event_categories.csv and own_categories.csv.
/// </summary>
public sealed class Category
{
    private static readonly FrozenDictionary<string, Category> ByCode = Load();

    private Category(string code, Side from, Side to, IReadOnlyDictionary<string, string> row)
    {
        Code = code;
        From = from;
        To = to;
        Term = row["trade_term"];
        Meaning = row["meaning"];
        LinesOut = Lines(row["us_out"]);
        LinesIn = Lines(row["us_in"]);
        MustCarry = row["must_carry"].Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        IsOfStores = row["stage"] == "stores";
        MayGoEitherWay = code is "FERMENT_VOLUME_CHANGE" or "PROCESS_CONTRACTION";
    }

    /// <summary>One side of a category: the stock sections it may touch, or a counter-account.</summary>
    /// <param name="Sections">Stock sections (and the process account); empty on a counter side.</param>
    /// <param name="Counters">Names of counter-accounts; the first is used where nothing else is said.</param>
    /// <param name="ClassTold">A class the pattern itself tells, such as E_SPKL; else empty.</param>
    public sealed record Side(IReadOnlyList<Section> Sections, IReadOnlyList<string> Counters, string ClassTold)
    {
        /// <summary>True when this side can be the section.</summary>
        public bool Allows(Section section) => Sections.Contains(section);

        /// <summary>True when this side is stock of some section.</summary>
        public bool IsStock => Sections.Count > 0 && Sections[0] != Section.Process;

        /// <summary>True when this side is the clearing account.</summary>
        public bool IsProcess => Sections.Count > 0 && Sections[0] == Section.Process;
    }

    /// <summary>Every category, in the order of the files.</summary>
    public static IReadOnlyList<Category> All { get; } = [.. Seed.Rows("seed/records/event_categories.csv").Concat(Seed.Rows("seed/records/own_categories.csv")).Select(row => Of(row["code"]))];

    /// <summary>The code, such as LEES_REMOVED.</summary>
    public string Code { get; }

    /// <summary>The side given from.</summary>
    public Side From { get; }

    /// <summary>The side put to.</summary>
    public Side To { get; }

    /// <summary>The trade's word for it.</summary>
    public string Term { get; }

    /// <summary>What it means, in a sentence.</summary>
    public string Meaning { get; }

    /// <summary>Facts an authority asks for with it.</summary>
    public IReadOnlyList<string> MustCarry { get; }

    /// <summary>True for the two that may run either way: shrinkage of a ferment and contraction of a process.</summary>
    public bool MayGoEitherWay { get; }

    /// <summary>True for a treatment: it moves no volume.</summary>
    public bool MovesNothing => From.Sections.Count == 0 && From.Counters.Count == 0;

    /// <summary>True for a movement of materials: it moves milligrams, microlitres or pieces of a material, and no wine.</summary>
    public bool IsOfStores { get; }

    private FrozenDictionary<char, string> LinesOut { get; }

    private FrozenDictionary<char, string> LinesIn { get; }

    /// <summary>The category of that code; a missing one is a bug.</summary>
    public static Category Of(string code) => ByCode[code];

    /// <summary>The category of that code, or null.</summary>
    public static Category? Find(string code) => ByCode.GetValueOrDefault(code);

    /// <summary>The form's line that the giving side feeds in a section, or empty.</summary>
    public string LineOut(Section section) => Line(LinesOut, section);

    /// <summary>The form's line that the receiving side feeds in a section, or empty.</summary>
    public string LineIn(Section section) => Line(LinesIn, section);

    /// <inheritdoc/>
    public override string ToString() => Code;

    private static string Line(FrozenDictionary<char, string> lines, Section section) => section switch
    {
        Section.Bulk => lines.GetValueOrDefault('A', ""),
        Section.Bottled => lines.GetValueOrDefault('B', ""),
        _ => "",
    };

    private static FrozenDictionary<char, string> Lines(string spec) =>
        spec.Split('/', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).ToFrozenDictionary(line => line[0]);

    private static FrozenDictionary<string, Category> Load() =>
        Seed.Rows("seed/records/event_categories.csv").Concat(Seed.Rows("seed/records/own_categories.csv"))
            .Select(row => new Category(row["code"], Parse(row["credit_account"]), Parse(row["debit_account"]), row))
            .ToFrozenDictionary(category => category.Code, StringComparer.Ordinal);

    private static Side Parse(string spec)
    {
        var sections = new List<Section>();
        var counters = new List<string>();
        var told = "";
        foreach (var part in spec.Split('/', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (part == "-") continue;
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            var head = colon < 0 ? part : part[..colon];
            var section = head switch
            {
                "MUST" => Section.Must,
                "BULK" => Section.Bulk,
                "BOTTLED" => Section.Bottled,
                "FRUIT" => Section.Fruit,
                "STORES" => Section.Stores,
                "PROC" => Section.Process,
                _ => Section.None,
            };
            if (section == Section.None) counters.Add(part);
            else if (!sections.Contains(section)) sections.Add(section);
            if (section != Section.None && colon > 0 && part[(colon + 1)..] is not ("c" or "c1" or "c2") && told.Length == 0) told = part[(colon + 1)..];
        }
        return new(sections, counters, told);
    }
}
