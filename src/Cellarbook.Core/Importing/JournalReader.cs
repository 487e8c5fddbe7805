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

    private readonly List<Refusal> refusals = [];
    private readonly Chunked<PackedRow> rows = new();
    private readonly Numbered<string> texts = new("", StringComparer.Ordinal);
    private readonly Numbered<string> events = new("", StringComparer.Ordinal);
    private readonly Numbered<ToldAccounts> told = new(new(null, null));
    private readonly Dictionary<string, ToldAccount?> cells = new(StringComparer.Ordinal);
    private int read;

    /// <summary>What was refused so far.</summary>
    public IReadOnlyList<Refusal> Refusals => refusals;

    /// <summary>How many were refused besides those listed.</summary>
    public int RefusedBesides { get; private set; }

    /// <summary>Rows read so far.</summary>
    public int RowsRead => read;

    /// <summary>Reads the fields of the next row.</summary>
    public void Add(IReadOnlyList<string> fields)
    {
        read++;
        var before = refusals.Count + RefusedBesides;
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
        if (category is null || refusals.Count + RefusedBesides > before) return;

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
        if (refusals.Count + RefusedBesides == before) rows.Add(Packed(row));

        string Field(string column) => columns.Field(fields, column);

        string? Text(string column) => Field(column) is { Length: > 0 } text ? text : null;

        PackedRow Packed(ImportedRow built) => new()
        {
            Date = date,
            Place = read,
            // A row without a number of its own counts by its place in the file, so that the order is one for all.
            Order = order ?? read,
            Event = events.Of(eventId),
            Told = told.Of(new(from, to)),
            EnteredOn = enteredOn ?? default,
            EnteredBy = texts.Of(Text("entered_by")),
            Category = texts.Of(built.Category),
            LotFrom = texts.Of(built.LotFrom),
            VesselFrom = texts.Of(built.VesselFrom),
            LotTo = texts.Of(built.LotTo),
            VesselTo = texts.Of(built.VesselTo),
            Reverses = texts.Of(built.Reverses),
            Document = texts.Of(built.Document),
            Note = texts.Of(built.Note),
            Section = texts.Of(built.Section),
            Volume = built.VolumeMl?.Volume ?? default,
            BottleSize = built.BottleMl?.Volume ?? default,
            Bottles = built.Bottles ?? default,
            Abv = built.Abv,
            Backwards = built.Backwards,
        };

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
            var account = ToldAccount.Read(cell, out var good);
            if (good) cells.TryAdd(cell, account);
            else Refuse(RefusalCode.WrongAccount, column, $"“{Names.Shown(Field(column))}” names no class known here.");
            return account;
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
        var order = InOrder();
        // By the number of an event: where it stands among events, and the row it begins with. By the place of an event: how many rows it has.
        var (placeOf, begins, counts) = (new int[events.Count], new int[events.Count], new List<int>(events.Count));
        foreach (var at in order)
        {
            ref readonly var row = ref rows[at];
            if (row.Date > today) Keep(new(RefusalCode.DayToCome, "date", $"{row.Date:yyyy-MM-dd} is still to come.") { Row = row.Place });
            if (placeOf[row.Event] == 0)
            {
                counts.Add(1);
                (placeOf[row.Event], begins[row.Event]) = (counts.Count, at);
                continue;
            }
            counts[placeOf[row.Event] - 1]++;
            ref readonly var opening = ref rows[begins[row.Event]];
            if (opening.Date != row.Date) Keep(new(RefusalCode.NoSuchDay, "date", $"Event {events[row.Event]} has rows on {opening.Date:yyyy-MM-dd} and {row.Date:yyyy-MM-dd}. An event happens on one day.") { Row = row.Place });
        }
        var first = new int[counts.Count];
        for (var i = 1; i < first.Length; i++) first[i] = first[i - 1] + counts[i - 1];
        // Rows stay where they lie; only their order is noted, those of one event together.
        var (next, grouped) = (first.ToArray(), new int[rows.Count]);
        foreach (var at in order) grouped[next[placeOf[rows[at].Event] - 1]++] = at;
        return new ImportedEvents(rows, grouped, first, events.All, texts.All, told.All);
    }

    /// <summary>Rows by date, then number or place, then place.</summary>
    private int[] InOrder()
    {
        var order = new int[rows.Count];
        for (var i = 0; i < order.Length; i++) order[i] = i;
        order.AsSpan().Sort((a, b) =>
        {
            ref readonly var one = ref rows[a];
            ref readonly var other = ref rows[b];
            var c = one.Date.CompareTo(other.Date);
            if (c == 0) c = one.Order.CompareTo(other.Order);
            return c != 0 ? c : a.CompareTo(b);
        });
        return order;
    }

    private void Keep(Refusal refusal)
    {
        if (refusals.Count < MostRefusals) refusals.Add(refusal);
        else RefusedBesides++;
    }
}
