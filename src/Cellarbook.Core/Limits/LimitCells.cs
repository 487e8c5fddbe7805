using System.Globalization;

namespace Cellarbook.Core.Limits;

/// <summary>The cells of one row of a limit set; what can't be read is a fault of that row.</summary>
internal sealed class LimitCells(int row, Dictionary<string, string> cells, List<LimitFault> faults)
{
    /// <summary>Row number.</summary>
    public int Row => row;

    /// <summary>How many faults there are so far.</summary>
    public int FaultCount => faults.Count;

    /// <summary>A cell's text; empty where the column is left out.</summary>
    public string this[string column] => cells.GetValueOrDefault(column, "");

    /// <summary>Adds a fault.</summary>
    public void Refuse(string column, string sentence) => faults.Add(new(row, column, sentence));

    /// <summary>One word of a list.</summary>
    public T One<T>(string column, IReadOnlyDictionary<string, T> words)
    {
        if (words.TryGetValue(this[column], out var value)) return value;
        Refuse(column, $"“{Shown(this[column])}” is not known. Use {string.Join(", ", words.Keys)}.");
        return words.Values.First();
    }

    /// <summary>Words apart by blanks, joined; empty is all.</summary>
    public T Flags<T>(string column, IReadOnlyDictionary<string, T> words, T all, Func<T, T, T> join)
    {
        var parts = this[column].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 0) return all;
        T? sum = default;
        foreach (var part in parts)
        {
            if (!words.TryGetValue(part, out var value)) { Refuse(column, $"“{Shown(part)}” is not known. Use {string.Join(", ", words.Keys)}, apart by blanks, or leave it empty for all."); return all; }
            sum = join(sum!, value);
        }
        return sum!;
    }

    /// <summary>Substances apart by blanks.</summary>
    public IReadOnlyList<Substance> Substances(string column, bool required)
    {
        var parts = this[column].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 0 && required) Refuse(column, "Name a substance.");
        var found = new List<Substance>(parts.Length);
        foreach (var part in parts)
            if (Limits.Substances.Find(part) is not { } substance) Refuse(column, $"There is no substance “{Shown(part)}”. The list of substances is on the page of limits.");
            else if (found.Contains(substance)) Refuse(column, $"“{part}” stands there twice.");
            else found.Add(substance);
        return found;
    }

    /// <summary>A band of sugar or strength.</summary>
    public Band? Band(string column, int decimals)
    {
        if (this[column].Length == 0) return null;
        var band = Limits.Band.Read(this[column], decimals);
        if (band is null) Refuse(column, $"“{Shown(this[column])}” is no band. Write one such as <5, >=5, <=4 or “>=2 <5”.");
        return band;
    }

    /// <summary>A word of small letters, digits and hyphens.</summary>
    public string Word(string column)
    {
        var word = this[column];
        if (word.Length > 60 || !word.All(c => c is >= 'a' and <= 'z' or >= '0' and <= '9' or '-')) Refuse(column, "Write a word of small letters, digits and hyphens.");
        return word;
    }

    /// <summary>Wine-growing zones.</summary>
    public IReadOnlyList<string> Zones(string column)
    {
        var zones = this[column].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        foreach (var zone in zones.Where(zone => !LimitWords.Zones.Contains(zone))) Refuse(column, $"“{Shown(zone)}” is no zone. Use {string.Join(", ", LimitWords.Zones)}.");
        return zones;
    }

    /// <summary>A range of years: "2016-2021", "2022-", "-2015".</summary>
    public (int? From, int? To) Years(string column)
    {
        var text = this[column];
        if (text.Length == 0) return (null, null);
        var parts = text.Split('-');
        if (parts.Length == 2 && parts.All(part => part.Length is 0 or 4) && (parts[0].Length + parts[1].Length) > 0)
        {
            int from = 0, to = 0;
            if ((parts[0].Length == 0 || int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out from)) && (parts[1].Length == 0 || int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out to)))
            {
                if (from > 0 && to > 0 && from > to) Refuse(column, "The last year lies before the first.");
                return (from > 0 ? from : null, to > 0 ? to : null);
            }
        }
        Refuse(column, $"“{Shown(text)}” is no range of years. Write one such as 2016-2021, 2022- or -2015.");
        return (null, null);
    }

    /// <summary>A day, or null when the cell is empty.</summary>
    public DateOnly? Day(string column)
    {
        if (this[column].Length == 0) return null;
        var day = LimitSetReader.ReadDay(this[column]);
        if (day is null) Refuse(column, $"“{Shown(this[column])}” is no day. Write it as 2024-12-29.");
        return day;
    }

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "…" : text;
}
