using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;

namespace Cellarbook.Forms;

/// <summary>How much sugar or water the rules in force still allow where a form is opened for, so that it is known before anything is typed.</summary>
public static class StillAllowed
{
    /// <summary>The sums in words, one for each set that has such a rule; empty where none has or nothing lies there.</summary>
    public static IReadOnlyList<Sentence> At(Desk desk, FilledPlace? here) => here is null ? [] : desk.Book.Read<Sentence[]>(book =>
        WineOfPlace.Of(book.Now.At(here.IsMust ? Account.Must(here.Lot, here.Vessel) : Account.Bulk(here.Lot, here.Vessel))) is not { } wine ? []
            : [.. book.LimitsInForce(desk.Book.Today).SelectMany(set => RuleJudgement.Of(set, wine, asked: here.IsMust)).Select(verdict => (Sentence)$"{Sentence.Seed(verdict.Set.Name)}: {verdict.Arithmetic}")]);

    /// <summary>The same in one sentence; null for none.</summary>
    public static Sentence? Lead(Desk desk, FilledPlace? here) => At(desk, here) is { Count: > 0 } said ? Sentence.Join(" ", said) : null;

    private const int Most = 8;

    /// <summary>How much of what lies in store may still go in where a form is opened for; null where no limit says.</summary>
    public static Sentence? Room(Desk desk, FilledPlace? here) => here is null ? null : desk.Book.Read(book =>
    {
        if (WineOfPlace.Of(book.Now.At(here.IsMust ? Account.Must(here.Lot, here.Vessel) : Account.Bulk(here.Lot, here.Vessel))) is not { } wine) return null;
        var sets = book.LimitsInForce(desk.Book.Today);
        var room = new List<Sentence>();
        foreach (var material in book.Now.MaterialsInStore.Select(book.Materials.Find).OfType<Core.Stores.Material>().Where(material => material.IsForWine).OrderBy(material => material.Kind, StringComparer.Ordinal).ThenBy(material => material.Name, StringComparer.Ordinal))
            if (room.Count < Most && book.Now.DeliveriesOf(material.Code).Any(delivery => book.Now.At(delivery).Material.IsPositive) && Core.Limits.Room.Of(sets, wine, material) is { } most)
                room.Add($"{Sentence.Seed(material.Name)} {desk.Show.Material(most, material.Unit)}");
        return room.Count == 0 ? null : (Sentence)$"At most, by the limits in force and each by itself: {Sentence.Join("; ", room)}.";
    });
}
