using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>
/// What to write on the label of a bottling, as far as the book can know it, and how well it knows it. A help: the rules where the wine is sold
/// decide, and ask for more than this.
/// </summary>
/// <param name="Bottling">Code of the bottling.</param>
/// <param name="Size">Nominal volume of a bottle.</param>
/// <param name="Day">The first day bottles of it came to be.</param>
/// <param name="Name">The name stated for it; null where none was.</param>
/// <param name="LotMark">The lot mark stated; null where none was.</param>
/// <param name="Strength">The strength to print; null where the book has none.</param>
/// <param name="StrengthWhy">What that rests on.</param>
/// <param name="StrengthIsSure">True when it was stated for the label and the rule of its step and tolerance is kept.</param>
/// <param name="Sulphites">True when "contains sulphites" belongs on it, false when a measurement says it needn't; null when only one could tell.</param>
/// <param name="SulphitesWhy">What that rests on.</param>
/// <param name="Others">Other things added that a label may have to name: egg, milk.</param>
public sealed record BottleLabel(string Bottling, Volume Size, DateOnly Day, string? Name, string? LotMark, Strength? Strength, Sentence StrengthWhy, bool StrengthIsSure, bool? Sulphites, Sentence SulphitesWhy, IReadOnlyList<AllergenAdded> Others)
{
    /// <summary>The label of a bottling; null for a code that none has.</summary>
    public static BottleLabel? Of(Book.Book book, EntryIndex index, string code)
    {
        if (book.Now.Bottling(code) is not { } facts) return null;
        var shelves = book.Now.ShelvesOfBottling(code).Select(book.Now.At).ToArray();
        var shelf = shelves.FirstOrDefault(place => !place.IsEmpty) ?? shelves[0];
        var (name, mark, onLabel) = Stated(book, index, code);
        var regimes = book.Premises?.Regimes ?? [];
        var regime = regimes.Contains("us") ? "US" : regimes.Contains("uk") ? "UK" : "EU";
        var (strength, why, sure) = ToPrint(onLabel, shelf.Standing.Strength, regime);
        var added = shelf.Notes.Additions.Distinct().SelectMany(entry => AllergenAdded.In(book, entry)).ToArray();
        var (sulphites, because) = OfSulphites(shelf.Notes, added, regime);
        return new(code, facts.Size, facts.FirstDay, name, mark, strength, why, sure, sulphites, because, [.. added.Where(one => one.Allergen != "sulphites").DistinctBy(one => one.Material)]);
    }

    /// <summary>What was last stated for the label, in book order.</summary>
    private static (string? Name, string? LotMark, Strength? Strength) Stated(Book.Book book, EntryIndex index, string code)
    {
        (string? Name, string? LotMark, Strength? Strength) label = default;
        foreach (var placed in BookOrder.Of(book, index.OfBottling(book, code), deed => deed.Postings.Any(posting => IsOf(posting.From, code) || IsOf(posting.To, code))).Where(placed => !placed.IsStruck))
            label = placed.Deed.Operation switch
            {
                Bottle bottle when bottle.Fills?.FirstOrDefault(fill => fill.Bottling == code) is { } filled => (filled.LabelName ?? label.Name, filled.LotMark ?? label.LotMark, filled.LabelAbv ?? label.Strength),
                Shelve shelve => (shelve.LabelName ?? label.Name, shelve.LotMark ?? label.LotMark, shelve.LabelAbv ?? label.Strength),
                Receive { LotMark: { } mark } => label with { LotMark = mark },
                _ => label,
            };
        return label;
    }

    private static (Strength? Strength, Sentence Why, bool IsSure) ToPrint(Strength? onLabel, Strength? found, string regime)
    {
        if (found is not { } inBook) return onLabel is null ? (null, (Sentence)"The book has no strength for it. Measure it, and state it anew.", false) : (onLabel, (Sentence)"Stated for the label; the book has no strength to hold it against.", false);
        if (regime == "US")
        {
            if (onLabel is not { } label) return (inBook, (Sentence)$"None was stated for the label; the book has {inBook}.", false);
            return AlcoholStatement.UsMayCarry(label, inBook) ? (label, (Sentence)$"Stated for the label; the book has {inBook}, which is within the tolerance.", true) : (label, (Sentence)$"Stated for the label, but the book has {inBook}: further apart than the tolerance, or across the class boundary.", false);
        }
        var allowed = AlcoholStatement.EuLabels(inBook);
        if (onLabel is not { } stated)
            return allowed.Count == 0 ? (inBook, (Sentence)$"The book has {inBook}.", false) : (allowed.MinBy(strength => Math.Abs(strength.Hundredths - inBook.Hundredths)), (Sentence)$"None was stated for the label; the book has {inBook}, and a label shows whole or half units. Sold wine goes by an analysis.", false);
        return allowed.Contains(stated) ? (stated, (Sentence)$"Stated for the label; the book has {inBook}, which is within the tolerance.", true) : (stated, (Sentence)$"Stated for the label, but the book has {inBook}: a label of sold wine may say {LimitWords.Either([.. allowed.Select(strength => Sentence.Of($"{strength}"))])}.", false);
    }

    private static (bool? Sulphites, Sentence Why) OfSulphites(WineNotes notes, IReadOnlyList<AllergenAdded> added, string regime)
    {
        var given = added.Where(one => one.Allergen == "sulphites").ToArray();
        if (notes.Readings.TryGetValue("totalSo2MgPerLitre", out var read) && Dose.ReadMilligramsPerLitre(read.Text, out var total) == ExactNumber.Fault.None && !given.Any(one => one.Entry > read.Entry))
        {
            var statement = AllergenStatement.Sulphites(regime, total);
            return (statement.Needed, (Sentence)$"Entry {read.Entry} read {statement.Why}.");
        }
        return given.Length > 0
            ? (true, given.Length == 1 ? Sentence.Of($"Added by entry {given[0].Entry}.") : $"Added by entries {string.Join(", ", given.Select(one => one.Entry).Distinct().Take(6))}.")
            : (null, "No sulphite is written down, but a ferment makes some by itself: only a measurement of total sulphur dioxide could leave it off.");
    }

    private static bool IsOf(Account account, string code) => account.Section == Section.Bottled && account.Name == code;
}

/// <summary>Something added that a label may have to name.</summary>
/// <param name="Material">As its entry calls it.</param>
/// <param name="Allergen">Such as "sulphites" or "egg".</param>
/// <param name="Entry">The entry.</param>
public sealed record AllergenAdded(string Material, string Allergen, long Entry)
{
    private static readonly string[] SulphiteWords = ["sulphite", "sulfite", "so2", "sulphur dioxide", "sulfur dioxide"];

    /// <summary>What an entry added, by the names of its materials.</summary>
    public static IEnumerable<AllergenAdded> In(Book.Book book, long entry)
    {
        foreach (var item in (book.Find(entry)?.Deeds ?? []).Select(deed => deed.Operation).OfType<Add>().SelectMany(add => add.Items ?? []))
            if (item.Material is { } material && Allergens(material) is { } allergen) yield return new(material, allergen, entry);
    }

    private static string? Allergens(string material)
    {
        if (SulphiteWords.Any(word => material.Contains(word, StringComparison.OrdinalIgnoreCase))) return "sulphites";
        return Substances.All.FirstOrDefault(substance => substance.Allergen.Length > 0 && (material.Equals(substance.Code, StringComparison.OrdinalIgnoreCase) || material.Contains(substance.Name, StringComparison.OrdinalIgnoreCase)))?.Allergen;
    }
}
