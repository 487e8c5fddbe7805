using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Forms;

/// <summary>Reads what was typed into a field and fills it into the slip; says what can't be read.</summary>
public static class FieldReading
{
    /// <summary>Between lot and vessel, and between bottling and shelf, in the value of a choice; no code can hold it.</summary>
    public const char At = '@';

    /// <summary>Reads one field.</summary>
    /// <param name="field">The field.</param>
    /// <param name="typed">What stands in it.</param>
    /// <param name="unitName">The unit chosen beside it.</param>
    /// <param name="comma">True where the maker's own decimal mark is the comma.</param>
    /// <param name="slip">What is filled in.</param>
    public static void Read(Field field, string? typed, string? unitName, bool comma, Slip slip)
    {
        var text = typed?.Trim().ReplaceLineEndings("\n") ?? "";
        if (text.Length == 0) return;
        switch (field.Kind)
        {
            case FieldKind.Figure:
                Figures(field, text, unitName, comma, slip);
                break;
            case FieldKind.Tick:
                slip.Put(field.Name, true);
                break;
            case FieldKind.Word when field.IsYesNo:
                slip.Put(field.Name, text == "true");
                break;
            case FieldKind.Day when !DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _):
                slip.Faults.Add(new(RefusalCode.NoSuchDay, field.Name, $"“{Names.Shown(text)}” is no day. Write it as 2026-03-01: year, month, day."));
                break;
            case FieldKind.Place:
                Pair(field, text, "lot", "vessel", slip);
                break;
            case FieldKind.Shelf:
                Pair(field, text, "bottling", "shelf", slip);
                break;
            default:
                slip.Put(field.Name, text, goesAlong: field.GoesAlong);
                break;
        }
    }

    private static void Figures(Field field, string text, string? unitName, bool comma, Slip slip)
    {
        var unit = field.Units.FirstOrDefault(unit => unit.Name == unitName) ?? (field.Units.Count == 1 || unitName is null ? field.Units[0] : null);
        if (unit is null)
        {
            slip.Faults.Add(new(RefusalCode.UnknownWord, field.Name, $"“{Names.Shown(unitName!)}” is no unit here. Use one of {string.Join(", ", field.Units.Select(known => known.Name))}."));
            return;
        }
        var path = unit.Leaf is null ? field.Name : Field.Join(field.Path, unit.Leaf);
        if (field.ProposedExactly is { } exactly && text == field.Proposed && unit.Name == (field.Unit ?? field.Units[0].Name))
        {
            // The proposal stands: what is there, exactly, even where the field shows it shortened.
            slip.PutNumber(path, exactly);
            return;
        }
        if (Figure.Read(text, comma, field.IsSmall, out var figure) is { } fault)
        {
            slip.Faults.Add(new(RefusalCode.NotANumber, field.Name, fault));
            return;
        }
        if (field.IsWhole && figure.Decimals > 0 && figure.Text.TrimEnd('0')[^1] != '.')
        {
            slip.Faults.Add(new(RefusalCode.TooFine, field.Name, "Give a whole number."));
            return;
        }
        if (field.IsKeptAsText) slip.Put(path, figure.Text);
        else slip.PutNumber(path, unit.Convert(figure));
        if (!unit.IsOwn) slip.Remember(path, $"{text} {unit.Name}");
    }

    /// <summary>A value such as "L1@V1" fills two fields; what was typed without the sign between, the first alone.</summary>
    private static void Pair(Field field, string text, string first, string second, Slip slip)
    {
        var at = text.IndexOf(At, StringComparison.Ordinal);
        if (at != 0) slip.Put(Field.Join(field.Path, first), at < 0 ? text : text[..at].Trim());
        if (at >= 0 && at < text.Length - 1) slip.Put(Field.Join(field.Path, second), text[(at + 1)..].Trim());
    }
}
