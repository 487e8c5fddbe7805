using System.Diagnostics;

namespace Cellarbook.Benchmarks;

/// <summary>The real program in a process of its own: how soon it answers, how much memory it takes at most.</summary>
internal sealed class ServedProgram : IDisposable
{
    private readonly Process process;
    private readonly Task watch;
    private long peak;

    private ServedProgram(Process process)
    {
        this.process = process;
        watch = Task.Run(Watch);
    }

    /// <summary>Where it answers; empty for a command.</summary>
    public string Address { get; private set; } = "";

    /// <summary>Most bytes of working set so far.</summary>
    public long Peak => Interlocked.Read(ref peak);

    /// <summary>Serves a folder's book; returns when it says that it listens.</summary>
    public static ServedProgram Serve(string data)
    {
        var program = Start(data, "serve", "--urls", "http://127.0.0.1:0");
        while (program.process.StandardOutput.ReadLine() is { } line)
            if (line.StartsWith("Open http", StringComparison.Ordinal))
            {
                program.Address = line.Split(' ')[1];
                _ = program.process.StandardOutput.ReadToEndAsync();
                return program;
            }
        throw new InvalidOperationException("The program did not start: " + program.process.StandardError.ReadToEnd());
    }

    /// <summary>Runs a command to its end; gives its peak memory.</summary>
    public static long Run(string data, params string[] arguments)
    {
        using var program = Start(data, arguments);
        var said = program.process.StandardOutput.ReadToEnd() + program.process.StandardError.ReadToEnd();
        program.process.WaitForExit();
        return program.process.ExitCode == 0 ? program.Peak : throw new InvalidOperationException(said);
    }

    public void Dispose()
    {
        if (!process.HasExited) process.Kill();
        process.WaitForExit();
        watch.Wait();
        process.Dispose();
    }

    private static ServedProgram Start(string data, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Cellarbook.dll"), .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["CELLARBOOK_DATA"] = data;
        return new(Process.Start(start)!);
    }

    private void Watch()
    {
        while (true)
        {
            try
            {
                process.Refresh();
                if (process.HasExited) return;
                Interlocked.Exchange(ref peak, Math.Max(Peak, process.PeakWorkingSet64));
            }
            catch (InvalidOperationException)
            {
                return;
            }
            Thread.Sleep(20);
        }
    }
}
