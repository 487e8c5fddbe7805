using Cellarbook.Core.Book;
using Cellarbook.Core.Costing;

namespace Cellarbook.Recording;

/// <summary>What everything cost as the book stands, worked out once for all who ask between two entries.</summary>
public sealed class CostMemory
{
    private readonly Lock gate = new();
    private (Book Book, long Last, CostLedger Ledger)? known;

    /// <summary>The costs of a book now; null where no price was ever stated.</summary>
    public CostLedger? Of(Book book)
    {
        if (!book.HasPrices) return null;
        lock (gate)
        {
            if (known is not { } before || before.Book != book || before.Last != book.LastNumber) known = before = (book, book.LastNumber, CostLedger.Build(book, null));
            return before.Ledger;
        }
    }
}
