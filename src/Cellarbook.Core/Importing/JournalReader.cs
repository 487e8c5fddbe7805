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
        if (category is null) Refuse(RefusalCode.UnknownCategory, "category", $"“{Names.Shown(Field("category"))}” is no category.");
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
        var shape = RowShape.Find(category, from, to, Field("lot_from"), Field("lot_to"), Field("bottles").Length > 0, Field("abv_pct").Length > 0, reverses, eventId, (code, path, sentence) => Refuse(code, path, sentence));
        if (shape is null) return;
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
            rows.Add(new(eventId, date, read, order, row) { EnteredOn = enteredOn, EnteredBy = Text("entered_by"), Told = from is null && to is null ? null : new(from, to) });

        string Field(string column) => columns.Field(fields, column);

        string? Text(string column) => Field(column) is { Length: > 0 } text ? Once(text) : null;

        void Refuse(RefusalCode code, string path, string sentence) => Keep(new(code, path, sentence) { Row = read });

        DateOnly? Day(string column)
        {
            if (Field(column) is not { Length: > 0 } text) return null;
            if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return day;
            Refuse(RefusalCode.NoSuchDay, column, $"“{Names.Shown(text)}” is no day. Write it as 2026-03-01.");
            return null;
        }

        ToldAccount? Told(string column)
        {
            var told = ToldAccount.Read(Field(column), out var good);
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
        var groups = new Dictionary<string, List<JournalRow>>(rows.Count, StringComparer.Ordinal);
        var order = new List<List<JournalRow>>();
        foreach (var row in rows)
        {
            if (row.Date > today) Keep(new(RefusalCode.DayToCome, "date", $"{row.Date:yyyy-MM-dd} is still to come.") { Row = row.Place });
            if (!groups.TryGetValue(row.EventId, out var group))
            {
                groups.Add(row.EventId, group = []);
                order.Add(group);
            }
            else if (group[0].Date != row.Date) Keep(new(RefusalCode.NoSuchDay, "date", $"Event {row.EventId} has rows on {group[0].Date:yyyy-MM-dd} and {row.Date:yyyy-MM-dd}. An event happens on one day.") { Row = row.Place });
            group.Add(row);
        }
        rows.Clear();
        return [.. order.Select(group => new Imported
        {
            Day = group[0].Date,
            EventId = group[0].EventId,
            EnteredOn = group.Max(row => row.EnteredOn),
            EnteredBy = group[0].EnteredBy,
            Rows = EventDirections.Settled([.. group.Select(row => row.Row)]),
            Told = group.Exists(row => row.Told is not null) ? [.. group.Select(row => row.Told ?? new(null, null))] : null,
            RowNumbers = [.. group.Select(row => row.Place)],
        })];
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
