using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Importing;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>Law 6 on random books: opening + in − out = closing to the microlitre, each closing is the next opening, and both are what lies there.</summary>
public class StatementLawTests
{
    private const int Books = 40;

    private static readonly Gen<int> Seed = Gen.Int[1, 10_000_000];

    private static PlainStatement Plain(Book.Book book, DateOnly from, DateOnly to) => PlainStatement.Build(book, new(from, to), ClassScheme.Default);

    private static Dictionary<(Section, string), (Volume Volume, BottleCount Bottles)> At(PlainStatement plain, Direction direction) =>
        plain.Lines.Where(line => line.Direction == direction && !line.Volume.IsNil).ToDictionary(line => (line.Section, line.Class), line => (line.Volume, line.Bottles));

    /// <summary>What lies in the cellar itself by section and class, found without the movements.</summary>
    private static Dictionary<(Section, string), (Volume Volume, BottleCount Bottles)> Lying(Book.Book book, DateOnly on) =>
        LotStatement.Build(book, on, ClassScheme.Default).Lines.GroupBy(line => (line.Section, line.Class))
            .ToDictionary(group => group.Key, group => (new Volume(group.Sum(line => line.Volume.Microlitres)), new BottleCount(group.Sum(line => line.Bottles.Bottles))));

    private static void Same(Dictionary<(Section, string), (Volume, BottleCount)> wanted, Dictionary<(Section, string), (Volume, BottleCount)> got) =>
        Assert.Equal(wanted.OrderBy(pair => pair.Key).Select(pair => $"{pair}"), got.OrderBy(pair => pair.Key).Select(pair => $"{pair}"));

    [Fact]
    public void Stock_by_lot_is_the_places_of_the_day_summed_and_the_same_section_by_section() => Seed.Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        var book = cellar.Book.Book;
        for (var i = 0; i < 8; i++)
        {
            var on = cellar.AnyRange().To;
            var lines = LotStatement.Build(book, on, ClassScheme.Default).Lines;
            Assert.Equal(book.AsOf(on).Places.Where(place => !place.IsEmpty && place.Account.IsStock)
                .GroupBy(place => (place.Account.Section, Order: place.Account.Section == Section.Must ? -1 : ClassScheme.Default.OrderOf(ClassScheme.Default.Of(place.Standing).Code), place.Account.Name))
                .OrderBy(group => group.Key.Section).ThenBy(group => group.Key.Order).ThenBy(group => group.Key.Name, StringComparer.Ordinal)
                .Select(group => $"{group.Key.Section} {group.Key.Order} {group.Key.Name} {new Volume(group.Sum(place => place.Volume.Microlitres))} {group.Sum(place => place.Bottles.Bottles)}"),
                lines.Select(line => $"{line.Section} {ClassScheme.Default.OrderOf(line.Class)} {line.Lot} {line.Volume} {line.Bottles}"));
            Assert.Equal(lines, new[] { Section.Must, Section.Bulk, Section.Bottled }.SelectMany(section => LotStatement.Build(book, on, ClassScheme.Default, section).Lines));
        }
    }, iter: Books);

    [Fact]
    public void The_random_cellars_are_worth_stating()
    {
        var cellars = Enumerable.Range(1, 12).Select(seed => new RandomCellar(seed)).ToArray();
        var categories = cellars.SelectMany(cellar => cellar.Book.Book.Pages.SelectMany(page => page.Deeds.SelectMany(deed => deed.Postings.Select(posting => posting.Category.Code)))).Distinct().Count();
        Assert.InRange(cellars.Average(cellar => cellar.Book.Book.Entries.Count), 40, 150);
        Assert.InRange(categories, 28, 65);
        Assert.InRange(cellars.Sum(cellar => cellar.TakenBack), 10, 1000);
    }

    [Fact]
    public void Law_6_opening_and_in_less_out_is_closing_and_closing_is_what_lies_there_for_any_range() => Seed.Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        var book = cellar.Book.Book;
        for (var i = 0; i < 8; i++)
        {
            var (from, to) = cellar.AnyRange();
            var plain = Plain(book, from, to);
            foreach (var group in plain.Lines.GroupBy(line => (line.Section, line.Class)))
            {
                long Sum(Direction direction) => group.Where(line => line.Direction == direction).Sum(line => line.Volume.Microlitres);
                long Count(Direction direction) => group.Where(line => line.Direction == direction).Sum(line => line.Bottles.Bottles);
                Assert.Equal(Sum(Direction.Closing), Sum(Direction.Opening) + Sum(Direction.In) - Sum(Direction.Out));
                Assert.Equal(Count(Direction.Closing), Count(Direction.Opening) + Count(Direction.In) - Count(Direction.Out));
                Assert.Single(group, line => line.Direction == Direction.Opening);
                Assert.Single(group, line => line.Direction == Direction.Closing);
            }
            Same(Lying(book, to), At(plain, Direction.Closing));
            if (from > book.FirstDay && to >= from) Same(Lying(book, from.AddDays(-1)), At(plain, Direction.Opening));
        }
    }, iter: Books);

    [Fact]
    public void Law_6_each_closing_is_the_next_opening_and_two_ranges_add_up_to_the_one_that_holds_them() => Seed.Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        var book = cellar.Book.Book;
        for (var i = 0; i < 6; i++)
        {
            var (from, to) = cellar.AnyRange();
            var middle = from.AddDays((to.DayNumber - from.DayNumber) / 2);
            if (middle < cellar.First || middle >= to) continue;
            var (first, second, both) = (Plain(book, from, middle), Plain(book, middle.AddDays(1), to), Plain(book, from, to));
            Same(At(first, Direction.Closing), At(second, Direction.Opening));
            Same(At(first, Direction.Opening), At(both, Direction.Opening));
            Same(At(second, Direction.Closing), At(both, Direction.Closing));
            static Dictionary<(Section, string, Category?, Direction), (long, long)> Moves(params PlainStatement[] parts) => parts.SelectMany(part => part.Lines).Where(line => line.Category is not null)
                .GroupBy(line => (line.Section, line.Class, line.Category, line.Direction))
                .Select(group => (group.Key, Sum: (group.Sum(line => line.Volume.Microlitres), group.Sum(line => line.Bottles.Bottles))))
                .Where(move => move.Sum != (0, 0)).ToDictionary(move => move.Key, move => move.Sum);
            Assert.Equal(Moves(both).OrderBy(move => $"{move.Key}"), Moves(first, second).OrderBy(move => $"{move.Key}"));
        }
    }, iter: Books);

    [Fact]
    public void Law_8_every_figure_is_the_sum_of_the_entries_behind_it() => Seed.Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        var (from, to) = cellar.AnyRange();
        var plain = Plain(cellar.Book.Book, from, to);
        foreach (var line in plain.Lines.Where(line => line.Category is not null))
        {
            var behind = PlainStatement.Behind(cellar.Book.Book, new(from, to), ClassScheme.Default).Where(part => (part.Section, part.Class, part.Category, part.Direction) == (line.Section, line.Class, line.Category, line.Direction)).ToArray();
            Assert.Equal(line.Volume.Microlitres, behind.Sum(part => part.Volume.Microlitres));
            Assert.All(behind, part => Assert.InRange(part.Entry, 1, cellar.Book.Book.LastNumber));
        }
    }, iter: Books);

    [Fact]
    public void What_a_statement_remembers_of_earlier_months_never_differs_from_a_book_never_asked() => Seed.Sample(seed =>
    {
        // Asked all along, while late rows and take-backs come in …
        var cellar = new RandomCellar(seed, asking: grown =>
        {
            var (from, to) = grown.AnyRange();
            UsStatement.Build(grown.Book.Book, new(from, to));
        });
        // … and a fresh book with the same rows.
        var fresh = new ImportedBook();
        foreach (var file in cellar.Files) fresh.Take(file);
        for (var month = MonthOf(cellar.First); month <= cellar.Last; month = month.AddMonths(1))
        {
            var period = new Period(month, month.AddMonths(1).AddDays(-1));
            Assert.Equal(Figures(UsStatement.Build(fresh.Book, period)), Figures(UsStatement.Build(cellar.Book.Book, period)));
        }
    }, iter: Books / 2);

    [Fact]
    public void The_forms_columns_balance_in_whole_gallons_and_its_paired_lines_agree() => Seed.Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        for (var i = 0; i < 4; i++)
        {
            var (from, to) = cellar.AnyRange();
            CheckForm(UsStatement.Build(cellar.Book.Book, new(from, to)));
        }
        var before = new Dictionary<(string, string), long>();
        for (var month = MonthOf(cellar.First); month <= cellar.Last; month = month.AddMonths(1))
        {
            var statement = UsStatement.Build(cellar.Book.Book, new(month, month.AddMonths(1).AddDays(-1)));
            CheckForm(statement);
            foreach (var column in statement.Figures.GroupBy(figure => (figure.Section.Name, figure.Class)))
            {
                if (month > cellar.First) Assert.Equal(before.GetValueOrDefault(column.Key), column.First().WholeGallons);
                before[column.Key] = column.Single(figure => figure.Line == figure.Section.Closing).WholeGallons;
            }
        }
    }, iter: Books);

    private static void CheckForm(UsStatement statement)
    {
        var figures = statement.Figures.ToDictionary(figure => (figure.Line.Line, figure.Class), figure => (figure.Volume.Microlitres, figure.WholeGallons));
        (long, long) Of(string line, string wine) => figures.GetValueOrDefault((line, wine));
        foreach (var column in statement.Figures.GroupBy(figure => (figure.Section, figure.Class)))
        {
            var section = column.Key.Section;
            long Sum(LineSide side, Func<UsFigure, long> of) => column.Where(figure => figure.Line.Side == side).Sum(of);
            foreach (var of in new Func<UsFigure, long>[] { figure => figure.Volume.Microlitres, figure => figure.WholeGallons })
            {
                long Line(FormLine line) => of(column.Single(figure => figure.Line == line));
                Assert.Equal(Line(section.Closing), Line(section.Opening) + Sum(LineSide.In, of) - Sum(LineSide.Out, of));
                Assert.Equal(Line(section.UpperTotal), Line(section.LowerTotal));
            }
        }
        foreach (var wine in statement.Figures.Select(figure => figure.Class).Distinct())
        {
            Assert.Equal(Of("A12", wine), Of("A32", wine));
            Assert.Equal(Of("B7", wine), Of("B21", wine));
            Assert.Equal(Of("A13", wine), Of("B2", wine));
            Assert.Equal(Of("A8", wine), Of("B10", wine));
        }
        if (statement.Plain.Lines.Any(line => ClassScheme.Default.Classes.Any(wine => wine.Code == line.Class && wine.OutsideForms))) return;
        foreach (var (outgoing, incoming) in new[] { ("A24", "A10"), ("B16", "B6") })
            Assert.Equal(statement.Figures.Where(figure => figure.Line.Line == outgoing).Sum(figure => figure.Volume.Microlitres), statement.Figures.Where(figure => figure.Line.Line == incoming).Sum(figure => figure.Volume.Microlitres));
    }

    private static IEnumerable<string> Figures(UsStatement statement) => statement.Figures.Select(figure => $"{figure.Section.Name} {figure.Class} {figure.Line.Line} {figure.Volume} {figure.WholeGallons}");

    private static DateOnly MonthOf(DateOnly day) => new(day.Year, day.Month, 1);
}
