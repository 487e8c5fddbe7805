using System.Globalization;
using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Exports;

/// <summary>
/// The whole book as a plain-text journal that hledger and ledger read: whole microlitres (uL), bottles, grams of fruit and materials in their own units, every posting in book
/// order, and after each the balance its account then has. So two independent programs can add the book up again. Nothing but ASCII is written,
/// whatever the lots are called, because one of the two fails on anything else outside a UTF-8 locale.
/// </summary>
public static class JournalText
{
    /// <summary>The counter-account of bottles that were filled or emptied.</summary>
    public const string Glass = "GLASS";

    private const string Microlitres = "uL";
    private const string Bottles = "bottles";
    private const string Grams = "g";
    private const string Milligrams = "mg";
    private const string LiquidMaterial = "uLm";
    private const string Pieces = "pieces";

    /// <summary>Writes the book. What it keeps in memory grows with the number of accounts, not of entries.</summary>
    public static void Write(Book book, TextWriter writer)
    {
        writer.Write("; Cellarbook journal. uL: whole microlitres; bottles: whole bottles; g: grams of fruit; mg, uLm and pieces: milligrams, microlitres and pieces of material.\n");
        writer.Write("; Every balance after \"=\" is what the book holds in that account at that moment. %XX stands for a byte of a name in UTF-8.\n");
        var balances = new Dictionary<Account, Balance>();
        var glass = new Balance(Glass);
        foreach (var page in book.Pages)
            foreach (var deed in page.Deeds)
            {
                if (deed.Postings.Count == 0) continue;
                Head(writer, deed);
                foreach (var posting in deed.Postings) Write(writer, posting, Of(posting.From), Of(posting.To), glass);
            }
        foreach (var entry in book.Entries)
            if (book.IsLeftOut(entry) && entry.TakenBackBy is { } by)
                writer.Write($"\n; Entry {Text(entry.Number)} of {Text(entry.Day)} is left out: entry {Text(by)} of {Text(book.Find(by)!.Day)} took it back.");
        writer.Write('\n');

        Balance Of(Account account)
        {
            if (!balances.TryGetValue(account, out var balance)) balances.Add(account, balance = new(NameOf(account)));
            return balance;
        }
    }

    /// <summary>The account's name in the journal: as in the book, with bytes outside ASCII written as %XX.</summary>
    public static string NameOf(Account account)
    {
        var name = account.ToString();
        if (Ascii.IsValid(name)) return name;
        var safe = new StringBuilder();
        foreach (var octet in Encoding.UTF8.GetBytes(name))
            if (octet < 0x80) safe.Append((char)octet);
            else safe.Append('%').Append(octet.ToString("X2", CultureInfo.InvariantCulture));
        return safe.ToString();
    }

    private static void Head(TextWriter writer, Deed deed)
    {
        writer.Write('\n');
        writer.Write(Text(deed.Day));
        writer.Write(" (");
        writer.Write(Text(deed.Entry));
        writer.Write(") ");
        writer.Write(DocumentRows.KindOf(deed));
        if (deed.TakesBack is { } taken) writer.Write($" of entry {Text(taken)}");
        writer.Write('\n');
    }

    private static void Write(TextWriter writer, Posting posting, Balance from, Balance to, Balance glass)
    {
        var category = posting.Category.Code;
        if (!posting.Volume.IsNil) Pair(from, to, posting.Volume.Microlitres, Microlitres, static balance => ref balance.Microlitres);
        if (posting.Bottles.Bottles != 0)
        {
            // Bulk wine and must hold no bottles: those that are filled come from the glass, those emptied go back to it.
            var (giver, taker) = (HoldsBottles(posting.From) ? from : glass, HoldsBottles(posting.To) ? to : glass);
            Pair(giver, taker, posting.Bottles.Bottles, Bottles, static balance => ref balance.Bottles);
        }
        if (posting.Weight.Grams != 0) Pair(from, to, posting.Weight.Grams, Grams, static balance => ref balance.Grams);
        switch (posting.MaterialUnit)
        {
            case MaterialUnit.Milligrams:
                Pair(from, to, posting.Material.Units, Milligrams, static balance => ref balance.Milligrams);
                break;
            case MaterialUnit.Microlitres:
                Pair(from, to, posting.Material.Units, LiquidMaterial, static balance => ref balance.LiquidMaterial);
                break;
            case MaterialUnit.Pieces:
                Pair(from, to, posting.Material.Units, Pieces, static balance => ref balance.Pieces);
                break;
        }

        void Pair(Balance giver, Balance taker, long amount, string commodity, Part part)
        {
            Line(giver, -amount, commodity, part);
            writer.Write("  ; ");
            writer.Write(category);
            writer.Write('\n');
            Line(taker, amount, commodity, part);
            writer.Write('\n');
        }

        void Line(Balance account, long amount, string commodity, Part part)
        {
            ref var balance = ref part(account);
            balance = checked(balance + amount);
            writer.Write("    ");
            writer.Write(account.Name);
            writer.Write("  ");
            Number(writer, amount);
            writer.Write(' ');
            writer.Write(commodity);
            writer.Write(" = ");
            Number(writer, balance);
            writer.Write(' ');
            writer.Write(commodity);
        }
    }

    private static bool HoldsBottles(Account account) => account.Section is Section.Bottled or Section.None;

    private static void Number(TextWriter writer, long number)
    {
        Span<char> digits = stackalloc char[20];
        number.TryFormat(digits, out var length, default, CultureInfo.InvariantCulture);
        writer.Write(digits[..length]);
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private delegate ref long Part(Balance balance);

    /// <summary>What an account holds so far.</summary>
    private sealed class Balance(string name)
    {
        public readonly string Name = name;
        public long Microlitres;
        public long Bottles;
        public long Grams;
        public long Milligrams;
        public long LiquidMaterial;
        public long Pieces;
    }
}
