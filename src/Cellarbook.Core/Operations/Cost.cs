using Cellarbook.Core.Book;
using Cellarbook.Core.Costing;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A cost of one's own put on a lot in bulk or on a bottling: work, energy, rent. By the litre or bottle that is there, by the hour, or as one
/// amount; over several places it is shared by volume. Moves nothing.
/// </summary>
public sealed record Cost : NoteOperation
{
    /// <summary>What for, in words.</summary>
    public string? What { get; init; }

    /// <summary>The bottling, instead of a lot.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf; left out: all of the bottling.</summary>
    public string? Shelf { get; init; }

    /// <summary>So much for each litre that is there.</summary>
    public Money? PerLitre { get; init; }

    /// <summary>So much for each bottle that is there.</summary>
    public Money? PerBottle { get; init; }

    /// <summary>So much for an hour.</summary>
    public Money? PerHour { get; init; }

    /// <summary>How many hours.</summary>
    public Reading? Hours { get; init; }

    /// <summary>One amount.</summary>
    public Money? Amount { get; init; }

    /// <summary>Currency, as three letters; left out: the book's.</summary>
    public string? Currency { get; init; }

    internal override string? PriceCurrency => Currency;

    internal override bool HasPrice => true;

    internal override IEnumerable<Account> NotedAt(Cellar cellar) => [];

    internal override OwnCost OwnCost => new(
        pool => Bottling is not null ? pool.Account.Section == Section.Bottled && pool.Account.Name == Bottling && (Shelf is null || pool.Account.Place == Shelf)
            : pool.Account.Section is Section.Must or Section.Bulk && pool.Account.Name == Lot && (Vessel is null || pool.Account.Place == Vessel),
        (volume, bottles) => PerLitre is { } litre ? litre.Times(volume.Microlitres, 1_000_000)
            : PerBottle is { } bottle ? bottle.Times(bottles.Bottles, 1)
            : PerHour is { } hour ? hour.Times(ThousandthsOfHours, 1_000)
            : Amount ?? Money.None);

    private long ThousandthsOfHours => Hours is { } hours && ExactNumber.Read(hours.Text, 3, out var thousandths) == ExactNumber.Fault.None ? thousandths : 0;

    internal override void Decide(Deciding deciding)
    {
        if (string.IsNullOrWhiteSpace(What)) deciding.Refuse(RefusalCode.Missing, "what", "Say what the cost is for.");
        if (Bottling is not null) deciding.ShelfOf(Bottling, Shelf ?? deciding.Cellar.ShelvesOfBottling(Bottling).FirstOrDefault()?.Place, "");
        else if (Vessel is not null || deciding.Cellar.AccountsOfLot(Lot ?? "").IsEmpty) deciding.PlaceOf(Lot, Vessel, "");
        var given = new[] { ("perLitre", PerLitre), ("perBottle", PerBottle), ("perHour", PerHour), ("amount", Amount) }.Where(pair => pair.Item2 is not null).ToArray();
        if (given.Length != 1) deciding.Refuse(given.Length == 0 ? RefusalCode.Missing : RefusalCode.DoesNotAddUp, given.Length == 0 ? "amount" : given[1].Item1, "Give one of perLitre, perBottle, perHour (with hours) or amount.");
        foreach (var (name, money) in given)
        {
            if (money <= Money.None) deciding.Refuse(RefusalCode.NotPositive, name, "The cost must be above nil.");
            if (money > Money.Most) deciding.Refuse(RefusalCode.TooLargeNumber, name, "That is more than the book can count. Check the figure.");
        }
        if (PerHour is not null && Hours is null) deciding.Refuse(RefusalCode.Missing, "hours", "Say how many hours.");
        if (Hours is { Value: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, "hours", "The hours must be above nil.");
        else if (Hours is { Value: > 100_000 }) deciding.Refuse(RefusalCode.TooLargeNumber, "hours", "That is more than a working life. Check the figure.");
        else if (Hours is { } hours && ExactNumber.Read(hours.Text, 3, out _) == ExactNumber.Fault.TooFine) deciding.Refuse(RefusalCode.TooFine, "hours", "Hours have at most three decimals.");
        if (PerBottle is not null && Bottling is null) deciding.Refuse(RefusalCode.Missing, "bottling", "A cost by the bottle is put on a bottling. Name it.");
        if (deciding.Refused) return;
        var there = Bottling is not null ? deciding.Cellar.ShelvesOfBottling(Bottling).Where(account => Shelf is null || account.Place == Shelf).Any(account => !deciding.Cellar.At(account).IsEmpty)
            : deciding.Cellar.PlacesOfLot(Lot!).Any(place => Vessel is null || place.Account.Place == Vessel);
        if (!there) deciding.Refuse(RefusalCode.MoreThanIsThere, Bottling is null ? "lot" : "bottling", $"Nothing of {Bottling ?? Lot} is there on {Day:yyyy-MM-dd} that could bear the cost. Check the code, or the day.");
    }
}
