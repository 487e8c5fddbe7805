using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>What one unit of a material brings of a substance.</summary>
/// <param name="Substance">The substance.</param>
/// <param name="PerUnit">In one milligram, microlitre or piece.</param>
/// <param name="Arithmetic">How that was found, in words.</param>
/// <param name="Source">Where from.</param>
/// <param name="Seen">"text" where the source was read, "memory" where not, "definition" where it follows from the name.</param>
public sealed record MaterialContent(Substance Substance, SubstanceAmount PerUnit, string Arithmetic, string Source, string Seen);

/// <summary>The usual least and most of a material in a hectolitre, in its own unit; a dose above it is asked about, never refused.</summary>
/// <param name="Low">Least.</param>
/// <param name="High">Most.</param>
/// <param name="Source">Where from.</param>
public sealed record PlausibleBand(MaterialAmount Low, MaterialAmount High, string Source);

/// <summary>A part of a kit: so many pieces of a material in one box.</summary>
public sealed record KitPart(string Material, MaterialAmount Pieces);

/// <summary>What a kit's box holds besides its sachets, and the mark it is made up to.</summary>
/// <param name="Concentrate">Volume of the bag.</param>
/// <param name="Mark">Volume it makes.</param>
/// <param name="Parts">Its sachets.</param>
public sealed record KitContents(Volume Concentrate, Volume Mark, IReadOnlyList<KitPart> Parts);

/// <summary>
/// Anything put into or around wine that is kept in store: an additive, a yeast, a cork, a kit. From the catalogue (seed/materials) or the
/// maker's own.
/// </summary>
public sealed record Material
{
    /// <summary>Code, such as "kmbs".</summary>
    public required string Code { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>sulphite, sorbate, fining, acid, yeast, nutrient, oak, cork, bottle, cleaning, kit …</summary>
    public required string Kind { get; init; }

    /// <summary>What it is counted in.</summary>
    public required MaterialUnit Unit { get; init; }

    /// <summary>Other names it is found by.</summary>
    public IReadOnlyList<string> Synonyms { get; init; } = [];

    /// <summary>Weight of a litre in grams, for a liquid that is dosed by weight; null where not known.</summary>
    public Mass? GramsPerLitre { get; init; }

    /// <summary>Weight of a piece; null where not known.</summary>
    public Mass? PieceWeight { get; init; }

    /// <summary>The allergen it is or holds; empty where none.</summary>
    public string Allergen { get; init; } = "";

    /// <summary>E number; empty where none.</summary>
    public string ENumber { get; init; } = "";

    /// <summary>additive, processing-aid, both, sugar, packaging, cleaning, kit; empty where not said.</summary>
    public string Role { get; init; } = "";

    /// <summary>The plausible dose; null where none is known.</summary>
    public PlausibleBand? Band { get; init; }

    /// <summary>Codes of the hazards to be shown with it.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>What else to know.</summary>
    public string Note { get; init; } = "";

    /// <summary>What it brings into wine.</summary>
    public IReadOnlyList<MaterialContent> Contents { get; init; } = [];

    /// <summary>Substances it holds without the packet saying how much.</summary>
    public IReadOnlyList<Substance> Unstated { get; init; } = [];

    /// <summary>What the packet allows; null where it states no limit.</summary>
    public LimitSet? Packet { get; init; }

    /// <summary>What its box holds; null unless it is a kit.</summary>
    public KitContents? Kit { get; init; }

    /// <summary>True for one the maker described.</summary>
    public bool IsOwn { get; init; }

    /// <summary>True when some of it is meant to end up in wine.</summary>
    public bool IsForWine => Role is not ("packaging" or "cleaning" or "kit");

    /// <summary>True where it may be used on must or wine: what packs it goes with bottles alone, what cleans with none.</summary>
    internal bool GoesInto(Account wine) => IsForWine || (Role == "packaging" && wine.Section == Section.Bottled);

    /// <summary>
    /// Substances that an amount brings, with all that each counts towards (metabisulphite as sulphur dioxide): whole nanograms, half up.
    /// </summary>
    public IEnumerable<(Substance Substance, SubstanceAmount Amount)> Brings(MaterialAmount amount) =>
        Contents.SelectMany(content => Substances.Counted(content.Substance, new(checked(content.PerUnit.Nanograms * amount.Units))));

    /// <summary>Its name, as pages say it.</summary>
    public Sentence Said => Sentence.Seed(Name);

    /// <summary>An amount in words: "12.5 g", "30 mL", "4 pieces".</summary>
    public Sentence Say(MaterialAmount amount) => Unit switch
    {
        MaterialUnit.Milligrams => Sentence.Figure(ExactNumber.Write(amount.Units, 3) + " g"),
        MaterialUnit.Microlitres => Sentence.Figure(ExactNumber.Write(amount.Units, 3) + " mL"),
        _ => amount.Units == 1 ? Sentence.Of("1 piece") : $"{amount.Units} pieces",
    };

    /// <summary>The unit in words, in the plural of typing: "grams", "millilitres", "pieces".</summary>
    public string UnitWord => Unit switch { MaterialUnit.Milligrams => "grams", MaterialUnit.Microlitres => "millilitres", _ => "pieces" };
}
