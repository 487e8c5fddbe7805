using System.Globalization;
using System.Text.RegularExpressions;
using Cellarbook.Core.Book;
using Cellarbook.Exports;

namespace Cellarbook.Tests.Exports;

/// <summary>Two general-purpose ledgers that add our journal up again.</summary>
internal static partial class Judges
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>What each judge has against a journal; empty when it accepts it.</summary>
    public static (string Hledger, string Ledger) Objections(string journal)
    {
        using var folder = new ScratchFolder();
        var file = folder.File("book.journal");
        File.WriteAllText(file, journal);
        var one = Processes.Run("hledger", "hledger", Patience, "-f", file, "check");
        var other = Processes.Run("ledger", "ledger", Patience, "-f", file, "--args-only", "bal");
        return (one.Code == 0 && one.Errors.Length == 0 ? "" : one.Errors + one.Output, other.Code == 0 && other.Errors.Length == 0 ? "" : other.Errors + other.Output);
    }

    /// <summary>Every balance that is not nil, as each judge adds it up.</summary>
    public static (SortedDictionary<string, long> Hledger, SortedDictionary<string, long> Ledger) Balances(string journal)
    {
        using var folder = new ScratchFolder();
        var file = folder.File("book.journal");
        File.WriteAllText(file, journal);
        var one = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var row in CsvText.Records(Processes.Run("hledger", "hledger", Patience, "-f", file, "bal", "--flat", "-N", "-O", "csv").Output).Skip(1))
            foreach (var amount in row[1].Split(", ")) Put(one, row[0], amount);
        var other = new SortedDictionary<string, long>(StringComparer.Ordinal);
        var account = "";
        foreach (var line in Processes.Run("ledger", "ledger", Patience, "-f", file, "--args-only", "bal", "--flat", "--no-total", "--format", "%(account)|%(display_total)\\n").Output.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            // A second commodity of an account stands on a line of its own.
            var bar = line.IndexOf('|', StringComparison.Ordinal);
            if (bar >= 0) account = line[..bar];
            Put(other, account, line[(bar + 1)..].Trim());
        }
        return (one, other);
    }

    /// <summary>What the book holds, under the journal's names.</summary>
    public static SortedDictionary<string, long> StockOf(Cellar cellar)
    {
        var stock = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var place in cellar.Places)
        {
            var name = JournalText.NameOf(place.Account);
            if (!place.Volume.IsNil) stock.Add(name + " uL", place.Volume.Microlitres);
            if (place.Bottles.Bottles != 0) stock.Add(name + " bottles", place.Bottles.Bottles);
            if (place.Weight.Grams != 0) stock.Add(name + " g", place.Weight.Grams);
        }
        return stock;
    }

    /// <summary>The stock accounts among a judge's balances.</summary>
    public static SortedDictionary<string, long> StockAmong(SortedDictionary<string, long> balances) =>
        new(balances.Where(balance => StockName().IsMatch(balance.Key)).ToDictionary(), StringComparer.Ordinal);

    private static void Put(SortedDictionary<string, long> balances, string account, string amount)
    {
        var parts = amount.Split(' ');
        if (amount != "0") balances.Add($"{account} {parts[1]}", long.Parse(parts[0], CultureInfo.InvariantCulture));
    }

    [GeneratedRegex("^(MUST|BULK|BOTTLED|FRUIT):")]
    private static partial Regex StockName();
}
