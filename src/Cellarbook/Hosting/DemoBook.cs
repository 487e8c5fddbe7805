using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;

namespace Cellarbook.Hosting;

/// <summary>The demonstration book of seed/demo, loaded through the public door, entry by entry.</summary>
public static class DemoBook
{
    /// <summary>A clock for it: the real one, but never before the evening the diary was closed, so that none of its days is still to come.</summary>
    public static TimeProvider Clock { get; } = new NeverBefore(new DateTimeOffset(2026, 11, 24, 18, 0, 0, TimeSpan.Zero));

    /// <summary>Records every operation of the diary; one that is refused is a bug.</summary>
    public static void Fill(OpenBook book)
    {
        using var stream = typeof(DemoBook).Assembly.GetManifestResourceStream("seed/demo/book.jsonl") ?? throw new InvalidOperationException("No demonstration book.");
        using var reader = new StreamReader(stream);
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0) continue;
            var refusals = new List<Refusal>();
            var operation = OperationJson.Read(System.Text.Encoding.UTF8.GetBytes(line), refusals);
            var recorded = operation is null ? Recorded.Refused(refusals) : book.Record(operation, operation.EnteredBy ?? operation.DoneBy ?? "owner");
            if (recorded.Refusals.Count > 0) throw new InvalidOperationException($"{recorded.Refusals[0].Sentence} in: {line}");
        }
    }

    private sealed class NeverBefore(DateTimeOffset least) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() is var now && now > least ? now : least;
    }
}
