using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;

namespace Cellarbook.Forms;

/// <summary>What a form needs at hand: the book, how its owner likes figures, and whose book it is.</summary>
public sealed class Desk(OpenBook book, Show show, House house)
{
    private volatile Remembered? now;

    /// <summary>The book.</summary>
    public OpenBook Book => book;

    /// <summary>How figures are written.</summary>
    public Show Show => show;

    /// <summary>Whose book it is.</summary>
    public House House => house;

    /// <summary>True for a maker who answers to an authority: only then words of tax and documents are asked for.</summary>
    public bool IsLicensed => !house.IsNew && !house.IsHousehold;

    /// <summary>The cellar to choose from, as it stands, or stood at the end of an earlier day. As it stands it is looked up once for each state of the book.</summary>
    public CellarChoices Cellar(DateOnly? day)
    {
        if (day is not null) return book.Read(found => CellarChoices.Of(found, day, show));
        var preferences = show.Preferences;
        if (now is { } known && known.Preferences == preferences && known.Cellar.LastNumber == book.Read(found => found.LastNumber)) return known.Cellar;
        var cellar = book.Read(found => CellarChoices.Of(found, null, show));
        now = new(cellar, preferences);
        return cellar;
    }

    /// <summary>The materials to choose from.</summary>
    public IReadOnlyList<Choice> Materials => MaterialsWhere(_ => true);

    /// <summary>Those that go into must and wine.</summary>
    public IReadOnlyList<Choice> MaterialsForWine => MaterialsWhere(material => material.IsForWine);

    private Choice[] MaterialsWhere(Func<Core.Stores.Material, bool> wanted) => book.Read<Choice[]>(found => [.. found.Materials.All.Where(wanted).Select(material => new Choice(material.Code, Sentence.Seed(material.Name)))]);

    /// <summary>The unit that a material is typed in; null for none of that code.</summary>
    public string? UnitOf(string? material) => material is null ? null : book.Read(found => found.Materials.Find(material)?.Unit) switch { null => null, Core.Quantities.MaterialUnit.Milligrams => "g", Core.Quantities.MaterialUnit.Microlitres => "mL", _ => "pieces" };

    /// <summary>What is counted in pieces and goes into wine, to choose from.</summary>
    public IReadOnlyList<Choice> Pieces => book.Read<Choice[]>(found => [.. found.Materials.All.Where(material => material is { Unit: Core.Quantities.MaterialUnit.Pieces, IsForWine: true }).Select(material => new Choice(material.Code, Sentence.Seed(material.Name)))]);

    /// <summary>The kits to choose from.</summary>
    public IReadOnlyList<Choice> Kits => book.Read<Choice[]>(found => [.. found.Materials.All.Where(material => material.Kit is not null).Select(material => new Choice(material.Code, Sentence.Seed(material.Name)))]);

    /// <summary>Entries that touched the same vessels or bottles since the form was opened, as sentences.</summary>
    public IReadOnlyList<Sentence> Meanwhile(Trial trial, long seen) => book.Read<Sentence[]>(found =>
    {
        var touched = Touched(trial.Entries.SelectMany(entry => entry.Deeds)).ToHashSet(StringComparer.Ordinal);
        var sentences = new List<Sentence>();
        for (var number = Math.Max(seen, found.LastNumber - 50) + 1; number <= found.LastNumber; number++)
            if (found.Find(number) is { } entry && Touched(entry.Deeds).Where(touched.Contains).Distinct().ToArray() is { Length: > 0 } same)
                sentences.Add($"Since you opened this form, entry {number} of {show.Day(entry.Day)} changed {string.Join(", ", same)}: {Sentence.Join("; ", entry.Deeds.SelectMany(deed => deed.Postings).Where(posting => Touched(posting).Any(same.Contains)).Take(3).Select(posting => PostingWords.Say(posting, show)))}.");
        return [.. sentences];
    });

    private sealed record Remembered(CellarChoices Cellar, Preferences Preferences);

    private static IEnumerable<string> Touched(IEnumerable<Deed> deeds) =>
        deeds.SelectMany(deed => deed.Postings).SelectMany(Touched);

    private static IEnumerable<string> Touched(Posting posting) =>
        new[] { posting.From, posting.To }.Where(account => account.IsStock).Select(account => account.InVessel ? account.Place : account.Name);
}
