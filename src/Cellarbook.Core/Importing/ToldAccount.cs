using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;

namespace Cellarbook.Core.Importing;

/// <summary>An account column as told: a section and class such as BULK:A16, or the name of a counter-account.</summary>
internal sealed record ToldAccount(Section Section, string Class, string Name)
{
    /// <summary>The class's product kind, where a class was told.</summary>
    public ProductKind? Kind => Class.Length == 0 ? null : ClassScheme.Default.KindOf(Class);

    /// <summary>Reads a cell; null when it is empty. An unknown class is null in <paramref name="good"/>.</summary>
    public static ToldAccount? Read(string cell, out bool good)
    {
        good = true;
        if (cell.Length == 0 || cell == "-") return null;
        var colon = cell.IndexOf(':', StringComparison.Ordinal);
        var head = colon < 0 ? cell : cell[..colon];
        var tail = colon < 0 ? "" : cell[(colon + 1)..];
        var section = head switch { "MUST" => Section.Must, "BULK" => Section.Bulk, "BOTTLED" => Section.Bottled, "PROC" => Section.Process, "FRUIT" => Section.Fruit, _ => Section.None };
        if (section.IsWine()) good = ClassScheme.Default.Knows(tail);
        return new(section, section.IsWine() ? tail : "", cell);
    }
}
