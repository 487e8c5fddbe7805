using System.Collections;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Importing;

/// <summary>
/// The events of a journal file in book order. A file of a million rows goes in whole or not at all, so all of it waits in memory: packed, and each
/// event is made anew whenever it is asked for.
/// </summary>
internal sealed class ImportedEvents : IReadOnlyList<Imported>
{
    private readonly IReadOnlyList<string> texts;
    private readonly IReadOnlyList<ToldAccounts> told;
    private readonly IReadOnlyList<string> ids;
    private readonly Chunked<PackedRow> rows;
    private readonly int[] order;
    // Where in the order each event's rows begin; they end where the next event's begin.
    private readonly int[] first;

    /// <param name="rows">The rows as they came.</param>
    /// <param name="order">Their book order, those of one event together.</param>
    /// <param name="first">Where in that order each event's rows begin.</param>
    /// <param name="ids">Ids of events by the number that rows bear.</param>
    /// <param name="texts">Texts by the number that rows bear.</param>
    /// <param name="told">Told accounts by the number that rows bear.</param>
    public ImportedEvents(Chunked<PackedRow> rows, int[] order, int[] first, IReadOnlyList<string> ids, IReadOnlyList<string> texts, IReadOnlyList<ToldAccounts> told) =>
        (this.rows, this.order, this.first, this.ids, this.texts, this.told) = (rows, order, first, ids, texts, told);

    public int Count => first.Length;

    public Imported this[int index]
    {
        get
        {
            var mine = order.AsSpan(first[index]..(index + 1 < first.Length ? first[index + 1] : order.Length));
            var built = new ImportedRow[mine.Length];
            var numbers = new int[mine.Length];
            ToldAccounts[]? accounts = null;
            DateOnly enteredOn = default;
            for (var i = 0; i < built.Length; i++)
            {
                ref readonly var row = ref rows[mine[i]];
                built[i] = Unpacked(row);
                numbers[i] = row.Place;
                if (row.Told > 0) accounts ??= new ToldAccounts[mine.Length];
                if (row.EnteredOn > enteredOn) enteredOn = row.EnteredOn;
            }
            if (accounts is not null)
                for (var i = 0; i < accounts.Length; i++) accounts[i] = told[rows[mine[i]].Told];
            ref readonly var opening = ref rows[mine[0]];
            return new()
            {
                Day = opening.Date,
                EventId = ids[opening.Event],
                EnteredOn = enteredOn == default ? null : enteredOn,
                EnteredBy = Text(opening.EnteredBy),
                Rows = EventDirections.Settled(built),
                Told = accounts,
                RowNumbers = numbers,
            };
        }
    }

    public IEnumerator<Imported> GetEnumerator()
    {
        for (var i = 0; i < Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    private ImportedRow Unpacked(in PackedRow row) => new()
    {
        Category = texts[row.Category],
        LotFrom = Text(row.LotFrom),
        VesselFrom = Text(row.VesselFrom),
        LotTo = Text(row.LotTo),
        VesselTo = Text(row.VesselTo),
        VolumeMl = row.Volume.IsPositive ? new Millilitres(row.Volume) : null,
        Bottles = row.Bottles.IsPositive ? row.Bottles : null,
        BottleMl = row.BottleSize.IsPositive ? new Millilitres(row.BottleSize) : null,
        Abv = row.Abv,
        Reverses = Text(row.Reverses),
        Document = Text(row.Document),
        Note = Text(row.Note),
        Section = Text(row.Section),
        Backwards = row.Backwards,
    };

    private string? Text(int number) => number == 0 ? null : texts[number];
}
