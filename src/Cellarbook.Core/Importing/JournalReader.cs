using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Importing;

/// <summary>
/// Reads the fields of a journal file, row by row, and gathers rows of one event. What can be told from a row alone is refused here; what needs
/// the book is refused when the events are folded. Feed rows with <see cref="Add"/>, then take <see cref="Events"/>.
/// </summary>
public sealed class JournalReader(JournalColumns columns)
{
    /// <summary>At most so many refusals are listed; the rest are counted.</summary>
    public const int MostRefusals = 100;

    private readonly List<JournalRow> rows = [];
    private readonly List<Refusal> refusals = [];
    private readonly Dictionary<string, string> words = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ToldAccount?> cells = new(StringComparer.Ordinal);
    private readonly Dictionary<(ToldAccount?, ToldAccount?), ToldAccounts> pairs = [];
    private int read;

    /// <summary>What was refused so far.</summary>
    public IReadOnlyList<Refusal> Refusals => refusals;

    /// <summary>Rows read so far.</summary>
    public int RowsRead => read;

    /// <summary>Reads the fields of the next row.</summary>
    public void Add(IReadOnlyList<string> fields)
    {
        read++;
        var before = refusals.Count;
        if (fields.Count != columns.Count)
        {
            Refuse(RefusalCode.Unreadable, "", $"The row has {fields.Count} fields, the head {columns.Count}.");
            return;
        }
        var category = Category.Find(Field("category"));
        if (category is null || category.IsOfStores) Refuse(RefusalCode.UnknownCategory, "category", category is null ? (Sentence)$"“{Names.Shown(Field("category"))}” is no category." : (Sentence)$"{category.Code} moves material; this file holds volumes only. Record deliveries and uses as operations.");
        var eventId = Field("event_id");
        if (eventId.Length == 0) Refuse(RefusalCode.Missing, "event_id", "Every row needs an event_id.");
        else if (eventId.Length > 100) Refuse(RefusalCode.BadName, "event_id", "An event_id has at most 100 characters.");
        var date = Day("date") ?? default;
        if (date == default && Field("date").Length == 0) Refuse(RefusalCode.Missing, "date", "Every row needs a date.");
        var enteredOn = Day("entered_on");
        if (enteredOn < date) Refuse(RefusalCode.EnteredBeforeItHappened, "entered_on", $"Entered on {enteredOn:yyyy-MM-dd}, before it happened on {date:yyyy-MM-dd}.");
        var from = Told("from_account");
        var to = Told("to_account");
        if (category is null || refusals.Count > before) return;

        var reverses = Text("reverses");
        var shape = RowShape.Find(category, from, to, Field("lot_from"), Field("lot_to"), Field("bottles").Length > 0, Field("abv_pct").Length > 0, reverses, eventId, out var fault);
        if (shape is null)
        {
            Keep(fault! with { Row = read });
            return;
        }
        var row = new ImportedRow
        {
            Category = category.Code,
            LotFrom = Name("lot_from", shape.From),
            LotTo = Name("lot_to", shape.To),
            VesselFrom = Name("vessel_from", shape.From),
            VesselTo = Name("vessel_to", shape.To),
            VolumeMl = Volume(category),
            Bottles = Bottles(),
            BottleMl = Size(),
            Abv = Abv(),
            Reverses = reverses,
            Document = Text("document"),
            Note = Text("note"),
            Section = shape.Ambiguous ? shape.Stock.Word() : null,
            Backwards = shape.Backwards,
        };
        Needs(row, shape);
        Agree(row, shape);
        long? order = null;
        if (Field("row") is { Length: > 0 } text)
        {
            if (long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)) order = number;
            else Refuse(RefusalCode.NotANumber, "row", $"“{Names.Shown(text)}” is no row number.");
        }
        if (refusals.Count == before)
            rows.Add(new(eventId, date, read, order, row, enteredOn, Text("entered_by"), from is null && to is null ? null : Both(from, to)));

        string Field(string column) => columns.Field(fields, column);

        string? Text(string column) => Field(column) is { Length: > 0 } text ? Once(text) : null;

        void Refuse(RefusalCode code, string path, Sentence sentence) => Keep(new(code, path, sentence) { Row = read });

        DateOnly? Day(string column)
        {
            if (Field(column) is not { Length: > 0 } text) return null;
            if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return day;
            Refuse(RefusalCode.NoSuchDay, column, $"“{Names.Shown(text)}” is no day. Write it as 2026-03-01.");
            return null;
        }

        ToldAccount? Told(string column)
        {
            var cell = Field(column);
            if (cells.TryGetValue(cell, out var known)) return known;
            var told = ToldAccount.Read(cell, out var good);
            if (good) cells.TryAdd(Once(cell), told);
            if (!good) Refuse(RefusalCode.WrongAccount, column, $"“{Names.Shown(Field(column))}” names no class known here.");
            return told;
        }

        string? Name(string column, Section side)
        {
            if (Text(column) is not { } name) return null;
            if (side == Section.Process)
            {
                // A mirrored row may still bear the id of the event it takes back.
                if (name != eventId && name != reverses && column is "lot_from" or "lot_to") Refuse(RefusalCode.WrongAccount, column, "On the side of a process the lot is left empty, or is the event's own id.");
                return null;
            }
            if (!side.IsStock())
            {
                if (side == Section.None && !category!.MovesNothing) Refuse(RefusalCode.WrongDirection, column, $"{category.Code} has no lot on that side. Fill the other one, or name the event it takes back.");
                return category!.MovesNothing ? name : null;
            }
            if (!Names.IsGood(name)) Refuse(RefusalCode.BadName, column, $"“{Names.Shown(name)}” can't be a code: use up to 40 letters, digits, - _ . / + # and single blanks inside.");
            return name;
        }

        Millilitres? Volume(Category of)
        {
            var text = Field("volume_ml");
            if (text.Length == 0 && of.MovesNothing) return null;
            if (text.Length == 0)
            {
                Refuse(RefusalCode.Missing, "volume_ml", "Give the volume in millilitres.");
                return null;
            }
            return Number("volume_ml", text) is { } volume ? new(volume) : null;
        }

        Quantities.Volume? Number(string column, string text)
        {
            var fault = Quantities.Volume.ReadMillilitres(text, out var volume);
            if (fault == ExactNumber.Fault.NotANumber) Refuse(RefusalCode.NotANumber, column, $"“{Names.Shown(text)}” is no number of millilitres. Write digits and a point, no unit.");
            else if (fault == ExactNumber.Fault.TooFine) Refuse(RefusalCode.TooFine, column, $"“{Names.Shown(text)}” is finer than a microlitre.");
            else if (fault == ExactNumber.Fault.TooLarge) Refuse(RefusalCode.TooLargeNumber, column, "That is more than the book can count.");
            else if (!volume.IsPositive) Refuse(RefusalCode.NotPositive, column, "The volume must be above nil; the category tells the direction.");
            else return volume;
            return null;
        }

        BottleCount? Bottles()
        {
            if (Field("bottles") is not { Length: > 0 } text) return null;
            if (!long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)) Refuse(RefusalCode.NotANumber, "bottles", $"“{Names.Shown(text)}” is no number of bottles.");
            else if (count is <= 0 or > 1_000_000_000) Refuse(RefusalCode.NotPositive, "bottles", "The number of bottles must be above nil, and within reason.");
            else return new(count);
            return null;
        }

        Millilitres? Size() => Field("bottle_ml") is { Length: > 0 } text && Number("bottle_ml", text) is { } size ? new(size) : null;

        Strength? Abv()
        {
            if (Field("abv_pct") is not { Length: > 0 } text) return null;
            var fault = Strength.ReadPercent(text, out var strength);
            if (fault == ExactNumber.Fault.None) return strength;
            Refuse(fault == ExactNumber.Fault.TooFine ? RefusalCode.TooFine : fault == ExactNumber.Fault.TooLarge ? RefusalCode.TooLargeNumber : RefusalCode.NotANumber, "abv_pct", $"“{Names.Shown(text)}” is no strength between 0 and 100 % vol with at most two decimals.");
            return null;
        }

        void Needs(ImportedRow built, RowShape sides)
        {
            if (sides.From.IsStock() && built.LotFrom is null) Lacks("lot_from");
            if (sides.To.IsStock() && built.LotTo is null) Lacks("lot_to");
            if (sides.From != Section.Bottled && sides.To != Section.Bottled) return;
            if (built.Bottles is null) Lacks("bottles");
            if (built.BottleMl is null) Lacks("bottle_ml");
        }

        void Lacks(string column)
        {
            if (!columns.Has(column)) Refuse(RefusalCode.MissingColumn, column, $"{category!.Code} needs the column {column}.");
            else if (Field(column).Length == 0) Refuse(RefusalCode.Missing, column, $"{category!.Code} needs {column}.");
        }

        void Agree(ImportedRow built, RowShape sides)
        {
            if (built is { Bottles: { } bottles, BottleMl: { } size, VolumeMl: { } volume } && (sides.From == Section.Bottled || sides.To == Section.Bottled)
                && (Int128)bottles.Bottles * size.Volume.Microlitres != volume.Volume.Microlitres)
                Refuse(RefusalCode.CountAndVolumeDisagree, "volume_ml", $"{bottles} bottles of {size.Text} mL are not {volume.Text} mL.");
        }
    }

    /// <summary>
    /// The events in book order: by date, then the row column, else place in the file. Refuses rows of one event on different days, and days
    /// to come.
    /// </summary>
    public IReadOnlyList<Imported> Events(DateOnly today)
    {
        if (read == 0 && refusals.Count == 0) Keep(new(RefusalCode.Empty, "", "The file has no rows."));
        rows.Sort((a, b) =>
        {
            var c = a.Date.CompareTo(b.Date);
            // A row without a number of its own counts by its place in the file, so that the order is one for all.
            if (c == 0) c = (a.Order ?? a.Place).CompareTo(b.Order ?? b.Place);
            return c != 0 ? c : a.Place.CompareTo(b.Place);
        });
        // Rows of one event are chained to its first, in order; most events have a row or two.
        var events = new List<(int First, int Last, int Count)>(rows.Count);
        var eventAt = new Dictionary<string, int>(rows.Count, StringComparer.Ordinal);
        var next = new int[rows.Count];
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            next[i] = -1;
            if (row.Date > today) Keep(new(RefusalCode.DayToCome, "date", $"{row.Date:yyyy-MM-dd} is still to come.") { Row = row.Place });
            if (eventAt.TryAdd(row.EventId, events.Count))
            {
                events.Add((i, i, 1));
                continue;
            }
            var at = eventAt[row.EventId];
            var (first, last, count) = events[at];
            if (rows[first].Date != row.Date) Keep(new(RefusalCode.NoSuchDay, "date", $"Event {row.EventId} has rows on {rows[first].Date:yyyy-MM-dd} and {row.Date:yyyy-MM-dd}. An event happens on one day.") { Row = row.Place });
            next[last] = i;
            events[at] = (first, i, count + 1);
        }
        var built = new Imported[events.Count];
        for (var i = 0; i < built.Length; i++) built[i] = Build(events[i].First, events[i].Count, next);
        rows.Clear();
        rows.TrimExcess();
        return built;
    }

    private Imported Build(int first, int count, int[] next)
    {
        var built = new ImportedRow[count];
        var numbers = new int[count];
        ToldAccounts[]? told = null;
        DateOnly? enteredOn = null;
        var at = first;
        for (var i = 0; i < count; i++, at = next[at])
        {
            var row = rows[at];
            built[i] = row.Row;
            numbers[i] = row.Place;
            if (row.Told is not null) (told ??= new ToldAccounts[count])[i] = row.Told;
            if (row.EnteredOn is { } entered && (enteredOn is null || entered > enteredOn)) enteredOn = entered;
        }
        if (told is not null)
            for (var i = 0; i < count; i++) told[i] ??= Both(null, null);
        return new() { Day = rows[first].Date, EventId = rows[first].EventId, EnteredOn = enteredOn, EnteredBy = rows[first].EnteredBy, Rows = EventDirections.Settled(built), Told = told, RowNumbers = numbers };
    }

    /// <summary>One copy of each pair of told accounts.</summary>
    private ToldAccounts Both(ToldAccount? from, ToldAccount? to)
    {
        if (!pairs.TryGetValue((from, to), out var both)) pairs.Add((from, to), both = new(from, to));
        return both;
    }

    private void Keep(Refusal refusal)
    {
        if (refusals.Count < MostRefusals) refusals.Add(refusal);
    }

    /// <summary>One copy of each text: lots and vessels come again and again.</summary>
    private string Once(string text)
    {
        if (words.TryGetValue(text, out var known)) return known;
        if (words.Count < 200_000) words.Add(text, text);
        return text;
    }
}
