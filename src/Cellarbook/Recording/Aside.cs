namespace Cellarbook.Recording;

/// <summary>A file set aside in a folder of its own, which nobody else on the machine may look into, until it is done with.</summary>
public sealed class Aside : IDisposable
{
    private const string Prefix = "cellarbook-aside-";
    private readonly string folder = Directory.CreateTempSubdirectory(Prefix).FullName;

    internal Aside(string name) => Path = System.IO.Path.Combine(folder, name);

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>True while the file is there.</summary>
    public bool IsThere => File.Exists(Path);

    internal long Touched { get; set; }

    internal bool IsDone { get; private set; }

    /// <summary>Removes it.</summary>
    public void Dispose()
    {
        IsDone = true;
        Remove(folder);
    }

    /// <summary>Removes what programs that ended without doing so left behind before a moment.</summary>
    internal static void RemoveLeftOvers(DateTime before)
    {
        var temporary = new DirectoryInfo(System.IO.Path.GetTempPath());
        if (!temporary.Exists) return;
        foreach (var left in temporary.GetDirectories(Prefix + "*", new EnumerationOptions()))
            if (left.LastWriteTimeUtc < before) Remove(left.FullName);
    }

    private static void Remove(string folder)
    {
        try
        {
            Directory.Delete(folder, recursive: true);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // Gone already, somebody else's, or still read: the next time does it.
        }
    }
}

/// <summary>
/// Files set aside: a backup until it is fetched, a journal file until it is written. None stays: each goes when it is done with, an hour after it was
/// last wanted, or when the program stops; what a program left that was killed goes a day later.
/// </summary>
public sealed class Asides : IDisposable
{
    /// <summary>How long a file is kept that nobody wants.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromHours(1);

    private static readonly TimeSpan LeftOver = TimeSpan.FromDays(1), Often = TimeSpan.FromMinutes(10);

    private readonly Lock turn = new();
    private readonly List<Aside> all = [];
    private readonly TimeProvider clock;
    private readonly ITimer sweeping;

    /// <summary>Begins to keep some.</summary>
    public Asides(TimeProvider clock)
    {
        this.clock = clock;
        sweeping = clock.CreateTimer(_ => Sweep(), null, TimeSpan.Zero, Often);
    }

    /// <summary>A place for a file of that name.</summary>
    public Aside Take(string name)
    {
        var aside = new Aside(name) { Touched = clock.GetTimestamp() };
        lock (turn) all.Add(aside);
        return aside;
    }

    /// <summary>Somebody wants it still.</summary>
    public void Touch(Aside aside)
    {
        lock (turn) aside.Touched = clock.GetTimestamp();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        sweeping.Dispose();
        lock (turn)
        {
            foreach (var aside in all) aside.Dispose();
            all.Clear();
        }
    }

    private void Sweep()
    {
        lock (turn)
        {
            foreach (var aside in all)
                if (clock.GetElapsedTime(aside.Touched) >= Kept) aside.Dispose();
            all.RemoveAll(aside => aside.IsDone);
        }
        Aside.RemoveLeftOvers(DateTime.UtcNow - LeftOver);
    }
}
