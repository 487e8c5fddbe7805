using System.Globalization;

namespace Cellarbook.Cli;

/// <summary>Says every few seconds what long work is at and how far. Work that is over sooner says nothing.</summary>
public sealed class Going : IDisposable
{
    private static readonly TimeSpan Usual = TimeSpan.FromSeconds(3);

    private readonly Lock turn = new();
    private readonly TextWriter to;
    private readonly TimeProvider clock;
    private readonly long since;
    private readonly ITimer timer;
    private string? now;

    /// <summary>Starts it.</summary>
    /// <param name="to">Where the lines go: not among the results.</param>
    /// <param name="clock">Tells when a line is due; left out, the machine's.</param>
    public Going(TextWriter to, TimeProvider? clock = null)
    {
        this.to = to;
        this.clock = clock ?? TimeProvider.System;
        since = this.clock.GetTimestamp();
        timer = this.clock.CreateTimer(_ => Say(), null, Usual, Usual);
    }

    /// <summary>What is being done, where nothing can be counted.</summary>
    public void Now(string what)
    {
        lock (turn) now = what;
    }

    /// <summary>Takes a count of what is done.</summary>
    /// <param name="what">What is counted, with what is done to it: "rows read".</param>
    /// <param name="of">Of how many, where that is known.</param>
    public IProgress<int> Counting(string what, long? of = null) => Counting(what, () => of is { } all ? string.Create(CultureInfo.InvariantCulture, $"of {all:#,0}") : "");

    /// <summary>Takes a count of what is done, with how far that is.</summary>
    /// <param name="what">What is counted.</param>
    /// <param name="far">How far: "40 % of the file".</param>
    public IProgress<int> Counting(string what, Func<string> far) => new Count(this, what, far);

    /// <summary>Nothing more is said.</summary>
    public void Done() => Now(null!);

    /// <inheritdoc/>
    public void Dispose() => timer.Dispose();

    private void Say()
    {
        lock (turn)
            if (now is not null) to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"… {clock.GetElapsedTime(since).TotalSeconds:0} s: {now}"));
    }

    private sealed class Count(Going going, string what, Func<string> far) : IProgress<int>
    {
        public void Report(int value)
        {
            var said = far();
            going.Now(string.Create(CultureInfo.InvariantCulture, $"{value:#,0} {what}{(said.Length > 0 ? ", " + said : "")}"));
        }
    }
}
