using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Xunit;

namespace Cellarbook.Core.Tests.Diary;

/// <summary>What holds of every book at every moment, worked out here by other means than the book's own.</summary>
public static class Always
{
    public static void Holds(Book.Book book)
    {
        Law_1_every_posting_moves_a_positive_quantity(book);
        Law_2_and_3_nothing_is_below_nil_nor_over_the_brim_nor_mixed_up(book);
        Law_6_opening_and_in_less_out_is_closing(book);
        Law_7_matter_is_conserved(book);
        Law_7_what_was_dosed_is_in_stock_or_went_where_the_wine_went(book);
        Folded_anew_it_is_the_same_book(book);
    }

    private static void Law_1_every_posting_moves_a_positive_quantity(Book.Book book)
    {
        foreach (var posting in book.Entries.SelectMany(entry => entry.Deeds).SelectMany(deed => deed.Postings))
        {
            Assert.True(posting.Volume.IsPositive || posting.Weight.Grams > 0 || posting.Material.IsPositive, $"{posting} moves nothing.");
            if (posting.From.Section == Section.Bottled || posting.To.Section == Section.Bottled) Assert.Equal(posting.Volume, posting.Bottles * posting.BottleSize);
        }
    }

    private static void Law_2_and_3_nothing_is_below_nil_nor_over_the_brim_nor_mixed_up(Book.Book book)
    {
        foreach (var place in book.Now.Places)
        {
            Assert.True(place.Volume >= Volume.None && place.Bottles.Bottles >= 0 && place.Weight.Grams >= 0 && place.Material >= MaterialAmount.None, $"{place.Account} is below nil.");
            if (place.Account.Section == Section.Bottled) Assert.Equal(place.Volume, place.Bottles * book.Now.Bottling(place.Account.Name)!.Size);
        }
        foreach (var vessel in book.Now.Places.Where(place => place.Account.InVessel && !place.IsEmpty).GroupBy(place => place.Account.Place))
        {
            Assert.Single(vessel);
            if (book.Vessels.GetValueOrDefault(vessel.Key)?.Capacity is { } capacity) Assert.True(vessel.Single().Volume <= capacity, $"{vessel.Key} is over the brim.");
            Assert.Equal(vessel.Single().Volume, book.Now.Vessel(vessel.Key).Held);
        }
    }

    private static void Law_6_opening_and_in_less_out_is_closing(Book.Book book)
    {
        if (book.FirstDay is not { } first) return;
        var end = book.Pages[^1].Day;
        var before = new Dictionary<(Section, string), long>();
        for (var month = new DateOnly(first.Year, first.Month, 1); month <= end; month = month.AddMonths(1))
        {
            var closings = new Dictionary<(Section, string), long>();
            var statement = PlainStatement.Build(book, new(month, month.AddMonths(1).AddDays(-1)), ClassScheme.Default);
            foreach (var group in statement.Lines.GroupBy(line => (line.Section, line.Class)))
            {
                var sums = group.ToLookup(line => line.Direction, line => line.Volume.Microlitres);
                Assert.Equal(sums[Direction.Closing].Single(), sums[Direction.Opening].Single() + sums[Direction.In].Sum() - sums[Direction.Out].Sum());
                if (month > first) Assert.Equal(before.GetValueOrDefault(group.Key), sums[Direction.Opening].Single());
                closings[group.Key] = sums[Direction.Closing].Single();
            }
            foreach (var (key, closing) in before) Assert.True(closing == 0 || closings.ContainsKey(key), $"{key} with {closing} µL has no line in {month:yyyy-MM}.");
            before = closings;
        }
        // What the statements close with is what lies in the cellar.
        var lying = book.Now.Places.Where(place => place.Account.Section is Section.Must or Section.Bulk or Section.Bottled && !place.IsEmpty)
            .GroupBy(place => (place.Account.Section, place.Account.Section == Section.Must ? "" : ClassScheme.Default.Of(place.Standing).Code), place => place.Volume.Microlitres);
        Assert.Equal(lying.Select(group => (group.Key, group.Sum())).OrderBy(pair => pair.Key), before.Where(pair => pair.Value != 0).Select(pair => (pair.Key, pair.Value)).OrderBy(pair => pair.Key));
    }

    private static void Law_7_matter_is_conserved(Book.Book book)
    {
        var taken = book.Entries.Where(entry => entry.LeavesOut).Select(entry => entry.TakesBack!.Value).ToHashSet();
        var deeds = book.Pages.SelectMany(page => page.Deeds).ToHashSet();
        // In the fold is every deed that was not taken back while its period was open, once.
        Assert.Equal(book.Entries.Where(entry => !taken.Contains(entry.Number)).SelectMany(entry => entry.Deeds).Concat(book.Entries.Where(entry => taken.Contains(entry.Number)).SelectMany(entry => entry.Deeds).Where(deed => deed.TakesBack is not null)).ToHashSet(), deeds);
        var sums = new Dictionary<Account, (long Microlitres, long Bottles, long Grams, long Material)>();
        void Add(Account account, long sign, Posting posting)
        {
            var (volume, bottles, weight, material) = sums.GetValueOrDefault(account);
            sums[account] = (volume + sign * posting.Volume.Microlitres, bottles + sign * posting.Bottles.Bottles, weight + sign * posting.Weight.Grams, material + sign * posting.Material.Units);
        }
        foreach (var posting in deeds.SelectMany(deed => deed.Postings))
        {
            Add(posting.From, -1, posting);
            Add(posting.To, 1, posting);
        }
        Assert.Equal(0, sums.Values.Sum(sum => sum.Microlitres));
        Assert.Equal(0, sums.Values.Sum(sum => sum.Grams));
        Assert.Equal(0, sums.Values.Sum(sum => sum.Material));
        Assert.Equal(0, sums.GetValueOrDefault(Account.Process).Microlitres);
        foreach (var place in book.Now.Places)
        {
            var sum = sums.GetValueOrDefault(place.Account);
            Assert.Equal((sum.Microlitres, sum.Grams, sum.Material), (place.Volume.Microlitres, place.Weight.Grams, place.Material.Units));
            if (place.Account.Section == Section.Bottled) Assert.Equal(sum.Bottles, place.Bottles.Bottles);
            Assert.Equal(OriginMix.Whole, place.Origin.Shares.Sum(share => share.Parts));
            Assert.All(place.Origin.Shares, share => Assert.True(share.Parts > 0));
        }
    }

    private static void Law_7_what_was_dosed_is_in_stock_or_went_where_the_wine_went(Book.Book book)
    {
        var dosed = new SortedDictionary<string, long>(StringComparer.Ordinal);
        // Water and sugar that went in travel along too, by volume; what makes a concentrate juice again is none.
        var water = book.Pages.SelectMany(page => page.Deeds).Where(deed => deed.Operation is not (Core.Operations.MakeUp or Core.Operations.StartKit)).SelectMany(deed => deed.Postings).Where(posting => posting.From.Name is "MAT:WATER" or "MAT:SUGAR" && !posting.IsTakenBack).Sum(posting => posting.Volume.Microlitres);
        if (water > 0) dosed["amelioration"] = water;
        foreach (var posting in book.Pages.SelectMany(page => page.Deeds).SelectMany(deed => deed.Postings).Where(posting => posting.Category.IsOfStores))
        {
            // What was taken back is taken out again, wherever the wine had carried it.
            var (material, wine, sign) = posting.IsTakenBack ? (posting.To, posting.From.WineUsedIn, -1) : (posting.From, posting.To.WineUsedIn, 1);
            if (wine is null || book.Now.At(material).Delivery is { MixedFrom.IsEmpty: false }) continue;
            foreach (var (substance, amount) in book.Materials.Find(material.Material!)!.Brings(posting.Material).Where(brought => brought.Substance.Code != "enrichment" || wine.Section == Section.Must))
                dosed[substance.Code] = dosed.GetValueOrDefault(substance.Code) + sign * amount.Nanograms;
        }
        if (book.Now.MaterialsInStore.SelectMany(material => book.Now.DeliveriesOf(material)).Any(delivery => book.Now.At(delivery).Delivery is { MixedFrom.IsEmpty: false })) return;
        var found = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var dose in book.Now.Places.Select(place => place.Carried).Concat(book.Now.AllGone.Select(gone => gone.Carried)).SelectMany(carried => carried is null ? [] : carried.Doses.AsEnumerable()))
            if (dose.Added.IsPositive) found[dose.Substance.Code] = found.GetValueOrDefault(dose.Substance.Code) + dose.Added.Nanograms;
        foreach (var nil in dosed.Where(pair => pair.Value == 0).Select(pair => pair.Key).ToArray()) dosed.Remove(nil);
        Assert.Equal(dosed, found);
        foreach (var place in book.Now.Places)
            foreach (var dose in place.Carried is { } carried ? carried.Doses.AsEnumerable() : [])
                Assert.True(dose.Unanalysed >= Volume.None && dose.Unanalysed <= place.Volume && dose.Standing.Nanograms >= 0, $"{place.Account} {dose.Substance.Code}: {dose.Unanalysed} of {place.Volume} not analysed.");
    }

    private static void Folded_anew_it_is_the_same_book(Book.Book book)
    {
        var violations = new List<Violation>();
        var again = Book.Book.Load(book.Entries, book.FindEvent, violations);
        Assert.Empty(violations.Select(violation => violation.Sentence));
        Assert.Equal(CellarPicture.Of(book), CellarPicture.Of(again));
        Assert.Equal(CellarPicture.Statements(book), CellarPicture.Statements(again));
        Assert.Equal(book.Disagreements, again.Disagreements);
        Assert.Equal(CellarPicture.Of(book), CellarPicture.Of(book.AsOf(DateOnly.MaxValue)));
    }
}
