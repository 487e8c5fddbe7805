using System.Collections;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    /// <summary>A deed still to be decided, at its moment of book order.</summary>
    private readonly struct Pending
    {
        // An operation, or the entries of a file: theirs are made anew when asked for.
        private readonly object source;

        public Pending(Deed deed, Operation operation, string prefix) => (Deed, source, Prefix) = (deed, operation, prefix);

        public Pending(Deed deed, ImportedEntries file) => (Deed, source, Prefix) = (deed, file, "");

        public Deed Deed { get; }

        public string Prefix { get; }

        /// <summary>The entry whose postings it mirrors, instead of being decided.</summary>
        public Entry? Mirrors { get; init; }

        public bool IsImported => source is ImportedEntries;

        public Operation Operation => source as Operation ?? ((ImportedEntries)source).Of(Deed.Entry).Operation!;
    }

    /// <summary>The deeds of a file's entries, in order; held nowhere else, because a file may hold a million.</summary>
    private sealed class PendingImport(Book book, ImportedEntries file) : IReadOnlyCollection<Pending>
    {
        public int Count => file.Deeds;

        public IEnumerator<Pending> GetEnumerator()
        {
            for (var i = 0; i < file.Count; i++)
                foreach (var deed in file.DeedsOf(i))
                    yield return new(deed, file) { Mirrors = deed.TakesBack is { } taken ? book.Find(taken) ?? file.Of(taken) : null };
        }

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }
}
