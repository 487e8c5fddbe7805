using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Statements;

/// <summary>The entries behind one figure of a statement (law 8).</summary>
public sealed class EntriesModel(OpenBook book, EntryLines lines, House house) : PageModel
{
    private const int Most = 500;

    /// <summary>What one entry gave to the figure.</summary>
    public sealed record Share(EntryLine Line, Volume Volume, BottleCount Bottles);

    /// <summary>First day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly From { get; set; }

    /// <summary>Last day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly To { get; set; }

    /// <summary>must, bulk or bottled.</summary>
    [BindProperty(SupportsGet = true)]
    public string Section { get; set; } = "";

    /// <summary>Code of the class; empty for all (and for must).</summary>
    [BindProperty(SupportsGet = true)]
    public string? Class { get; set; }

    /// <summary>Code of the kind of movement.</summary>
    [BindProperty(SupportsGet = true)]
    public string Category { get; set; } = "";

    /// <summary>Line of an authority's form, instead of a kind: all the kinds that feed it.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Line { get; set; }

    /// <summary>in, out, or opening for stock brought forward.</summary>
    [BindProperty(SupportsGet = true)]
    public string Direction { get; set; } = "";

    /// <summary>What the figure is called.</summary>
    public Sentence Figure { get; private set; } = "";

    /// <summary>The figure.</summary>
    public Volume Volume { get; private set; }

    /// <summary>What was on hand at the start, or is at the end, that a total of a form counts besides the entries; null for other figures.</summary>
    public Volume? OnHand { get; private set; }

    /// <summary>The entries, oldest first.</summary>
    public IReadOnlyList<Share> Shares { get; private set; } = [];

    /// <summary>How many more there are.</summary>
    public int More { get; private set; }

    /// <summary>Finds them.</summary>
    public IActionResult OnGet()
    {
        var (category, line) = (Core.Book.Category.Find(Category), string.IsNullOrEmpty(Line) ? null : UsForm.Current.Sections.SelectMany(half => half.Lines).FirstOrDefault(known => known.Line == Line));
        // No kind at all: everything that came in, or went out.
        var whole = string.IsNullOrEmpty(Category) && string.IsNullOrEmpty(Line) && (IsIn || Direction.Equals("out", StringComparison.OrdinalIgnoreCase));
        if ((category is null && line is null && !whole) || To < From) return this.Missing("There is no such figure.", "/statements", "Statements");
        var any = string.IsNullOrEmpty(Class);
        var (statement, behind) = book.Read(read => (PlainStatement.Build(read, new(From, To), ClassScheme.Default), PlainStatement.Behind(read, new(From, To), ClassScheme.Default)));
        // A total of a form is the stock of its half and all that came in, or went out.
        var total = line?.Side == LineSide.Total;
        var found = behind
            .Where(part => (total || (whole ? !StatementView.LeavesOut(part.Category, any) : line is null ? part.Category == category : LineOf(part) == line.Line)) && part.Section.Word() == Section && (any || part.Class == Class) && part.Direction.ToString().Equals(Direction, StringComparison.OrdinalIgnoreCase))
            .GroupBy(part => part.Entry)
            .Select(group => (Entry: group.Key, Volume: group.Aggregate(Volume.None, (sum, part) => sum + part.Volume), Bottles: group.Aggregate(default(BottleCount), (sum, part) => sum + part.Bottles))).ToArray();
        Figure = whole ? IsIn ? Sentence.Of("All that came in") : "All that went out" : line is null ? Sentence.Of($"{Words.Category(category!, house.IsHousehold)}, {(IsIn ? Sentence.Of("in") : Direction.Equals("opening", StringComparison.OrdinalIgnoreCase) ? "opening" : "out")}") : $"{line.Label} ({line.Line})";
        if (total)
        {
            var end = IsIn ? Core.Statements.Direction.Opening : Core.Statements.Direction.Closing;
            OnHand = statement.Lines.Where(stock => stock.Direction == end && stock.Section.Word() == Section && (any || stock.Class == Class)).Aggregate(Volume.None, (sum, stock) => sum + stock.Volume);
        }
        Volume = found.Aggregate(OnHand ?? Volume.None, (sum, part) => sum + part.Volume);
        More = Math.Max(0, found.Length - Most);
        var told = lines.Of(found.Take(Most).Select(part => part.Entry)).ToDictionary(line => line.Number);
        Shares = [.. found.Take(Most).Where(part => told.ContainsKey(part.Entry)).Select(part => new Share(told[part.Entry], part.Volume, part.Bottles))];
        return Page();
    }

    private bool IsIn => Direction.Equals("in", StringComparison.OrdinalIgnoreCase);

    private static string LineOf(Contribution part) => part.Direction switch
    {
        Core.Statements.Direction.In => part.Category.LineIn(part.Section),
        Core.Statements.Direction.Out => part.Category.LineOut(part.Section),
        _ => "",
    };
}
