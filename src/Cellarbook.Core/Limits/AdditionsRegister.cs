using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Limits;

/// <summary>
/// Who added what, when, to which wine, out of which batch, at which dose, and how it stood to its limit then. An entry that was taken back while
/// its period was open is not in it.
/// </summary>
public static class AdditionsRegister
{
    /// <summary>The register of a period.</summary>
    /// <param name="book">The book.</param>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="lot">A lot: additions made under its name, and those made before to wine that is in it now; null for all.</param>
    public static IReadOnlyList<AdditionRow> Of(Book.Book book, DateOnly from, DateOnly to, string? lot = null)
    {
        var rows = new List<AdditionRow>();
        var before = new Dictionary<Account, Place>();
        var brought = lot is null ? null : book.Now.AccountsOfLot(lot).Concat(book.Now.Bottlings.Where(bottling => bottling.Lots.Contains(lot)).SelectMany(bottling => book.Now.ShelvesOfBottling(bottling.Code)))
            .SelectMany(account => book.Now.At(account).Notes.Additions).ToHashSet();
        book.Walk(from, to, (deed, cellar) =>
        {
            before.Clear();
            foreach (var account in Touched(deed, cellar)) before[account] = cellar.At(account);
        }, (deed, cellar) =>
        {
            if (deed.TakesBack is not null) return;
            if (deed.Operation is Measure { TaGramsPerLitre: { } acidity } measure) Complete(rows, measure.NotedAt(cellar).Select(account => account.Name).Distinct(), acidity.Text);
            if (lot is not null && brought!.Contains(deed.Entry) != true && Touched(deed, cellar).All(account => account.Name != lot)) return;
            foreach (var posting in deed.Postings)
                if (posting.To.WineUsedIn is { } wine && posting.From.Material is { } code && book.Materials.Find(code) is { IsForWine: true } material) rows.Add(Counted(book, deed, posting, wine, material, before.GetValueOrDefault(wine) ?? cellar.At(wine), cellar));
            rows.AddRange(Uncounted(book, deed, before, cellar));
        });
        // What was taken back after its period was closed stays in the register, and says so.
        return [.. rows.Select(row => book.Find(row.Entry)?.TakenBackBy is { } by ? row with { Note = string.Join("; ", new[] { row.Note, $"taken back by entry {by}" }.Where(text => text.Length > 0)) } : row)];
    }

    private static IEnumerable<Account> Touched(Deed deed, Cellar cellar) =>
        deed.Postings.Select(posting => posting.To.WineUsedIn).OfType<Account>().Concat(deed.Operation is Add or Pitch ? deed.Operation.NotedAt(cellar) : Treatments(deed).SelectMany(row => Imported.TreatedBy(row, cellar))).Distinct();

    private static IEnumerable<ImportedRow> Treatments(Deed deed) => deed is { TakesBack: null, Operation: Imported imported } ? imported.Treatments : [];

    private static AdditionRow Counted(Book.Book book, Deed deed, Posting posting, Account wine, Material material, Place before, Cellar after)
    {
        var place = after.At(wine);
        var delivery = posting.From.Section == Section.Stores ? after.At(posting.From).Delivery : null;
        var row = Row(deed, wine, before, place, material.Name, material.Say(posting.Material).ToString()) with
        {
            Code = material.Code, ENumber = material.ENumber, Role = material.Role, Allergen = material.Allergen, Delivery = posting.From.Section == Section.Stores ? posting.From.Place : "",
            Batch = delivery?.Batch ?? BatchSaid(deed, material, book) ?? "unknown", IsAssumed = posting.Category.Code == "MATERIAL_USED_ASSUMED", Supplier = delivery?.Supplier ?? "", DeliveryDocument = delivery?.Document ?? "",
        };
        if (WineOfPlace.Of(place) is not { } judged) return row;
        var brings = material.Brings(posting.Material).ToArray();
        var verdicts = Judgement.Of(book.LimitsInForce(deed.Day), judged).SelectMany(set => set.Verdicts).Where(verdict => verdict.Row?.With is null && (brings.Any(one => one.Substance == verdict.Substance) || material.Unstated.Contains(verdict.Substance))).ToArray();
        // The limit that holds it back: the worst verdict, then the one with the least room.
        var worst = verdicts.OrderByDescending(verdict => verdict.Kind).ThenBy(verdict => verdict.Room is { } room ? room.Nanograms : long.MaxValue).FirstOrDefault();
        var substance = worst?.Substance ?? (brings.Length > 0 ? brings[^1].Substance : material.Unstated.Count > 0 ? material.Unstated[0] : null);
        if (substance is null) return row;
        var dose = brings.Where(one => one.Substance == substance).Aggregate(SubstanceAmount.None, (sum, one) => sum + one.Amount);
        // What is counted in pieces or drops has no mg/L; the verdict's sum says it in its own unit.
        var isWeighed = substance.Unit == MaterialUnit.Milligrams;
        return row with
        {
            Substance = substance.Name,
            Dose = dose.IsPositive && isWeighed ? dose.PerLitre(place.Volume) : null,
            TotalSoFar = place.Carried?.Of(substance) is { } carried && carried.Added.IsPositive && isWeighed ? carried.Added.PerLitre(place.Volume) : null,
            Limit = worst is null ? Sentence.Empty : worst.Row is { } limit ? $"{Sentence.Seed(worst.Set.Name)}: {LimitSpeech.Says(limit)}, {LimitWords.Spoken(worst.Basis)}" : Sentence.Seed(worst.Set.Name),
            Verdict = worst?.Word ?? "", Arithmetic = worst?.Arithmetic ?? Sentence.Empty, Source = worst is null ? "" : worst.Source + (worst.Seen ? "" : " (from memory)"),
        };
    }

    /// <summary>What was written as free text, came in by a journal file, or was pitched: kept as said, without a dose.</summary>
    private static IEnumerable<AdditionRow> Uncounted(Book.Book book, Deed deed, Dictionary<Account, Place> before, Cellar after)
    {
        var counted = deed.Postings.Where(posting => posting.To.WineUsedIn is not null).Select(posting => posting.From.Material).ToHashSet();
        IEnumerable<(string Name, string Amount, string Batch, string Role)> said = deed.Operation switch
        {
            Add add => (add.Items ?? []).Where(item => !IsCounted(item.Material)).Select(item => (item.Material ?? "", Amount(item.Grams, item.Millilitres, item.Pieces, item.GramsPerHectolitre, item.MgPerLitre), item.Batch ?? "unknown", "")),
            Pitch pitch => (pitch.Cultures ?? []).Where(culture => !IsCounted(culture.Name)).Select(culture => (culture.Name ?? "", Amount(culture.Grams, culture.Millilitres, culture.Packets, null, null), culture.Batch ?? "unknown", culture.What ?? "culture")),
            _ => [],
        };
        foreach (var treatment in Treatments(deed))
            foreach (var account in Imported.TreatedBy(treatment, after))
                yield return Row(deed, account, before.GetValueOrDefault(account) ?? after.At(account), after.At(account), treatment.Note ?? Category.Of(treatment.Category).Term, "") with { DoneBy = deed.Operation?.EnteredBy ?? "", Document = treatment.Document ?? "" };
        foreach (var (name, amount, batch, role) in said)
            foreach (var (account, was) in before)
                yield return Row(deed, account, was, after.At(account), name, amount) with { Batch = batch, Role = role };

        bool IsCounted(string? word) => word is not null && (counted.Contains(word) || (book.Materials.Meant(word) is { } material && counted.Contains(material.Code)));
    }

    private static string Amount(Mass? grams, Millilitres? millilitres, Reading? pieces, Reading? perHectolitre, Reading? perLitre) =>
        grams is { } g ? g.ToString() : millilitres is { } ml ? ml.Text + " mL" : pieces is { } count ? count.Text + (count.Text == "1" ? " piece" : " pieces") : perHectolitre is { } hl ? hl.Text + " g/hL" : perLitre is { } mg ? mg.Text + " mg/L" : "";

    private static string? BatchSaid(Deed deed, Material material, Book.Book book) => deed.Operation switch
    {
        Add add => add.Items?.FirstOrDefault(item => item.Material is { } word && (word == material.Code || book.Materials.Meant(word)?.Code == material.Code))?.Batch,
        Pitch pitch => pitch.Cultures?.FirstOrDefault(culture => culture.Name is { } word && (word == material.Code || book.Materials.Meant(word)?.Code == material.Code))?.Batch,
        _ => null,
    };

    private static AdditionRow Row(Deed deed, Account account, Place before, Place after, string material, string amount)
    {
        var operation = deed.Operation;
        var treated = before.Volume.IsPositive ? before.Volume : after.Volume;
        return new(deed.Entry, deed.Day, account.Name, account.Place, account.Section == Section.Must, treated, material, amount)
        {
            After = after.Volume, Time = deed.Time, DoneBy = operation?.DoneBy ?? "", Reason = operation?.Reason ?? operation?.Flags?.FirstOrDefault(flag => flag.Code == "over_limit")?.Reason ?? "", Document = operation?.Document ?? "", Note = string.Join("; ", new[] { operation?.Method, operation?.Note }.Where(text => !string.IsNullOrEmpty(text))),
            AcidityBefore = before.Notes.Readings.GetValueOrDefault("taGramsPerLitre")?.Text ?? "",
            Wine = account.Section == Section.Must ? "must" : before.Standing.Strength is { } strength ? $"{before.Standing.Kind.ToString().ToLowerInvariant()} wine, {strength}" : $"{before.Standing.Kind.ToString().ToLowerInvariant()} wine",
        };
    }

    private static void Complete(List<AdditionRow> rows, IEnumerable<string> lots, string acidity)
    {
        var measured = lots.ToHashSet();
        for (var i = rows.Count - 1; i >= 0; i--)
            if (rows[i].AcidityAfter.Length == 0 && measured.Contains(rows[i].Lot)) rows[i] = rows[i] with { AcidityAfter = acidity };
    }
}
