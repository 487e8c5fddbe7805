namespace Cellarbook.Forms;

/// <summary>Parts that several forms have in common.</summary>
public static class Parts
{
    /// <summary>Origins of what comes in: up to three, each with a percentage where there are several.</summary>
    public static Group Origins(string path, int count) => new("Where it comes from",
        [.. Enumerable.Range(0, count).Select(i => new Line(
            [Optional($"{path}[{i}].variety", "Variety"), Optional($"{path}[{i}].vintage", "Vintage"), Optional($"{path}[{i}].place", "Grown at"), Optional($"{path}[{i}].purchase", "Purchase"),
             Ask.Reading($"{path}[{i}].percent", "Part of the whole", "%")]) { Caption = count > 1 ? (Sentence)$"Origin {i + 1}" : null })])
    { IsFolded = true, More = path, MoreText = "One more origin", Lead = "What is left out is unstated. Several origins need a percentage each." };

    /// <summary>Losses by kind.</summary>
    public static Group Losses(Sentence heading, string list, int from, int count, string unit, params string[] words) => new(heading,
        [.. Enumerable.Range(from, count).Select(i => new Line([Ask.Volume($"{list}[{i}].litres", "Lost", unit) with { IsOptional = true }, Ask.Word($"{list}[{i}].kind", "How", Ask.Losses(words)) with { IsOptional = true }]))])
    { IsFolded = true, More = list, MoreText = "One more loss" };

    /// <summary>A place something is put into, with how much.</summary>
    public static IReadOnlyList<Field> Target(string path, Sentence label, CellarChoices cellar, string unit) =>
        [Ask.Volume(path + ".litres", label, unit), Ask.Vessel(path + ".vessel", "Into", cellar.Vessels), Ask.Text(path + ".lot", "Lot") with { Choices = cellar.Lots, IsOptional = true, Hint = "Left out: the lot it came from." }];

    /// <summary>What is measured out of a process; where it follows from mass and alcohol of the parts, it may be left out.</summary>
    public static IReadOnlyList<Field> Result(string path, CellarChoices cellar, string unit, bool follows = false) =>
        [.. Target(path, "Measured out", cellar, unit).Select(field => follows && field.Name.EndsWith(".litres", StringComparison.Ordinal) ? field with { IsOptional = true, Hint = "Left out: worked out with the contraction, and marked so." } : field), Ask.Strength(path + ".abv", "Strength measured") with { IsOptional = true, Hint = "Left out: the pure alcohol put in over the volume measured out, and marked so." }];

    /// <summary>A place something is drawn from, with how much.</summary>
    public static IReadOnlyList<Field> Source(string path, IReadOnlyList<Choice> places, string unit) =>
        [Ask.Place(path, "From", places), Ask.Volume(path + ".litres", "How much", unit) with { IsOptional = true, Hint = "Left out: all that is there." }];

    /// <summary>"Fermentation is over", offered where must is racked or bottled.</summary>
    public static Group FermentationOver(StrengthProposal? proposal) => Ask.Folded("Fermentation is over",
        Ask.Tick("declare", "It is wine from now on"),
        Ask.Strength("declare.abv", "Strength") with { IsOptional = true, GoesAlong = true, Proposed = proposal?.Typed, ProposedExactly = proposal?.Strength.Percent, Hint = proposal?.Sentence ?? "The strength you state; no two gravities are there to estimate it from." })
        with { Lead = "Only when the gravity has stopped falling. What is then missing besides the lees is shrinkage of the ferment." };

    /// <summary>What casks were topped from: own wine, own bottles, bought wine or water.</summary>
    public static IReadOnlyList<Group> ToppedFrom(CellarChoices cellar) =>
    [
        Ask.Group("From own wine", Ask.Place("from", "Own wine", cellar.Places) with { IsOptional = true }),
        Ask.Folded("Or from own bottles", Ask.Shelf("fromBottles", "Bottles opened", cellar.Shelves) with { IsOptional = true }, Ask.Bottles("fromBottles.bottles", "How many") with { IsOptional = true }),
        Ask.Folded("Or from bought wine", Ask.Tick("fromBought", "It was bought wine"), Ask.Text("fromBought.what", "Which") with { IsOptional = true }, Ask.Strength("fromBought.abv", "Strength") with { IsOptional = true }),
        Ask.Folded("Or with water", Ask.Tick("fromWater", "It was water") with { Hint = "Wine is thinner for it, and the book shows by how much. Many rules don’t allow water in wine: look at yours first." }),
    ];

    /// <summary>Keeps that it was bought wine, with or without a word on which.</summary>
    public static void KeepBought(Slip slip)
    {
        if (!slip.IsTicked("fromBought")) return;
        slip.Drop("fromBought", itself: true);
        slip.PutEmpty("fromBought");
    }

    /// <summary>Keeps what goes with "fermentation is over" only where that is ticked.</summary>
    public static void Declare(Slip slip)
    {
        if (!slip.IsTicked("declare"))
        {
            slip.Drop("declare");
            return;
        }
        slip.Drop("declare", itself: true);
        slip.PutEmpty("declare");
    }

    /// <summary>Every target says its lot: the one named, else that of the first source.</summary>
    public static void NameTargets(Slip slip)
    {
        if (slip.Lines("sources").Cast<int?>().FirstOrDefault() is not { } first || slip.Text($"sources[{first}].lot") is not { } lot) return;
        foreach (var i in slip.Lines("targets").Where(i => !slip.Has($"targets[{i}].lot")).ToArray()) slip.Put($"targets[{i}].lot", lot);
    }

    private static Field Optional(string name, Sentence label) => Ask.Text(name, label) with { IsOptional = true };
}
