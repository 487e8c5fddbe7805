using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A figure of the form.</summary>
/// <param name="Section">Bulk or bottled.</param>
/// <param name="Class">The column.</param>
/// <param name="Line">The line.</param>
/// <param name="Volume">To the microlitre.</param>
/// <param name="WholeGallons">As reported: whole gallons that balance.</param>
public sealed record UsFigure(FormSection Section, string Class, FormLine Line, Volume Volume, long WholeGallons);

/// <summary>The US report's Part I, from the plain statement's contributions: each category in its line.</summary>
public sealed class UsStatement
{
    private UsStatement(PlainStatement plain, IReadOnlyList<UsFigure> figures, IReadOnlyList<Sentence> notes)
    {
        Plain = plain;
        Figures = figures;
        Notes = notes;
    }

    /// <summary>The plain statement of the same period.</summary>
    public PlainStatement Plain { get; }

    /// <summary>Figures in the order of the form, column by column.</summary>
    public IReadOnlyList<UsFigure> Figures { get; }

    /// <summary>Remarks.</summary>
    public IReadOnlyList<Sentence> Notes { get; }

    /// <summary>Builds it.</summary>
    public static UsStatement Build(Book.Book book, Period asked)
    {
        var (form, scheme) = (UsForm.Current, ClassScheme.Default);
        var plain = PlainStatement.Build(book, asked, scheme);
        var notes = new List<Sentence>(plain.Notes);
        var figures = new List<UsFigure>();
        var onFirst = plain.Stated.From.Day == 1 || plain.Stated.From == book.FirstDay;
        var chain = plain.Lines.Count > 0 && onFirst ? Chain(book, form, scheme, plain.Stated.From) : null;
        foreach (var section in form.Sections)
            foreach (var column in plain.Lines.Where(line => line.Section == section.Section).GroupBy(line => line.Class))
            {
                if (scheme.Named(column.Key).OutsideForms)
                {
                    var closing = column.First(line => line.Direction == Direction.Closing);
                    notes.Add($"{closing.Volume} {section.Section.Word()}, {scheme.Named(column.Key).Words}, is left out of the form: it has no column for it.");
                    continue;
                }
                var opening = column.First(line => line.Direction == Direction.Opening).Volume;
                var openingGallons = chain?.GetValueOrDefault((section.Section, column.Key)) ?? form.WholeGallons(opening);
                if (chain is not null && plain.Stated.From == book.FirstDay) openingGallons = form.WholeGallons(opening);
                Column(form, section, column.Key, column, opening, openingGallons, figures, notes);
            }
        if (figures.Exists(figure => figure.Line.Line == "A9") && plain.Lines.Any(line => line.Category?.Code == "GAUGE_GAIN")) notes.Add("Line A9 holds gauge differences of single vessels, which do not come from a full count.");
        foreach (var section in form.Sections)
            if (plain.Lines.Any(line => line.Section == section.Section && line.Category?.Code == "OPENING"))
                notes.Add($"Line {WriteIn(section).Line} holds stock brought forward that was taken back after the book's first day.");
        return new(plain, figures, notes);
    }

    /// <summary>Adds one column's figures and remarks; gives the whole gallons reported as its closing.</summary>
    private static long Column(UsForm form, FormSection section, string wine, IEnumerable<PlainLine> lines, Volume opening, long openingGallons, List<UsFigure> figures, List<Sentence> notes)
    {
        var (ins, outs) = Sums(section, lines.Where(line => line.Category is not null).Select(line => (line.Category!, line.Direction, line.Volume)));
        var totalIn = ins.Aggregate(opening, (sum, line) => sum + line.Volume);
        var totalOut = outs.Aggregate(Volume.None, (sum, line) => sum + line.Volume);
        var closing = totalIn - totalOut;
        var (gallonsIn, gallonsOut, closingGallons) = GallonRounding.Balance(form, openingGallons, ins, outs, closing);
        if (opening.IsNil && closing.IsNil && ins.Count == 0 && outs.Count == 0) return closingGallons;
        figures.Add(new(section, wine, section.Opening, opening, openingGallons));
        for (var i = 0; i < ins.Count; i++) figures.Add(new(section, wine, ins[i].Line, ins[i].Volume, gallonsIn[i]));
        figures.Add(new(section, wine, section.UpperTotal, totalIn, openingGallons + gallonsIn.Sum()));
        for (var i = 0; i < outs.Count; i++) figures.Add(new(section, wine, outs[i].Line, outs[i].Volume, gallonsOut[i]));
        figures.Add(new(section, wine, section.Closing, closing, closingGallons));
        figures.Add(new(section, wine, section.LowerTotal, totalOut + closing, gallonsOut.Sum() + closingGallons));
        if (closingGallons < 0) notes.Add($"{wine} {section.Closing.Line} is {closingGallons} whole gallons by rounding alone; the true stock is {closing}. The next period settles it.");
        return closingGallons;
    }

    private static FormLine WriteIn(FormSection section) => section.Lines.Last(line => line.Side == LineSide.In && line.MayMove != Nudging.Never);

    /// <summary>Sums per line, in the form's order, without lines that come to nil.</summary>
    private static (List<(FormLine Line, Volume Volume)> In, List<(FormLine Line, Volume Volume)> Out) Sums(FormSection section, IEnumerable<(Category Category, Direction Direction, Volume Volume)> parts)
    {
        var sums = new Dictionary<string, Volume>(StringComparer.Ordinal);
        foreach (var (category, direction, volume) in parts)
        {
            var line = direction == Direction.In ? category.LineIn(section.Section) : category.LineOut(section.Section);
            // Stock brought forward that was taken back on a later day: the opening stays as stated; the write-in line of receipts takes it.
            if (line == section.Opening.Line) line = WriteIn(section).Line;
            if (line.Length == 0) throw new InvalidOperationException($"{category.Code} has no line for {direction} in {section.Name}.");
            sums[line] = sums.GetValueOrDefault(line) + volume;
        }
        return (Of(LineSide.In), Of(LineSide.Out));

        List<(FormLine, Volume)> Of(LineSide side) => [.. section.Lines.Where(line => line.Side == side && sums.TryGetValue(line.Line, out var sum) && !sum.IsNil).Select(line => (line, sums[line.Line]))];
    }

    /// <summary>Whole gallons reported as closing the month before <paramref name="from"/>: the chain of calendar months from the book's first.</summary>
    private static IReadOnlyDictionary<(Section Section, string Class), long>? Chain(Book.Book book, UsForm form, ClassScheme scheme, DateOnly from)
    {
        if (from.AddDays(-1) < book.FirstDay) return new Dictionary<(Section, string), long>();
        if (book.Memory.Through(book, from.AddDays(-1), scheme).Gallons is { } known) return known;
        IReadOnlyDictionary<(Section Section, string Class), long>? before = null;
        foreach (var month in book.Memory.AllThrough(book, from.AddDays(-1), scheme))
        {
            if (month.Gallons is null)
            {
                var plain = PlainStatement.Build(book, new(month.First, month.First.AddMonths(1).AddDays(-1)), scheme);
                var closings = new Dictionary<(Section Section, string Class), long>(before ?? new Dictionary<(Section, string), long>());
                foreach (var section in form.Sections)
                    foreach (var column in plain.Lines.Where(line => line.Section == section.Section).GroupBy(line => line.Class))
                    {
                        var opening = column.First(line => line.Direction == Direction.Opening).Volume;
                        var openingGallons = before is null ? form.WholeGallons(opening) : before.GetValueOrDefault((section.Section, column.Key));
                        closings[(section.Section, column.Key)] = Column(form, section, column.Key, column, opening, openingGallons, [], []);
                    }
                month.Gallons = closings;
            }
            before = month.Gallons;
        }
        return before;
    }
}
