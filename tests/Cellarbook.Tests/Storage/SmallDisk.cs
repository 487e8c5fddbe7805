using System.Diagnostics;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>A real file system of a few megabytes over a folder, gone again at the end.</summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly string folder;

    private SmallDisk(string folder) => this.folder = folder;

    /// <summary>Mounts it. Where this may not be done (no superuser, no Linux) the test is skipped and says so: nothing else makes a disk truly full.</summary>
    public static SmallDisk Over(string folder, int megabytes)
    {
        string? why = "only Linux can mount one here";
        if (OperatingSystem.IsLinux()) why = Run("mount", "-t", "tmpfs", "-o", $"size={megabytes}m", "cellarbook-test", folder);
        if (why is not null) Assert.Skip($"No small file system could be mounted: {why}");
        return new(folder);
    }

    public void Dispose() => Assert.Null(Run("umount", folder));

    /// <summary>Runs a command; null when it went well, else what it said.</summary>
    private static string? Run(string command, params string[] arguments)
    {
        try
        {
            var start = new ProcessStartInfo(command) { RedirectStandardError = true };
            foreach (var argument in arguments) start.ArgumentList.Add(argument);
            using var process = Process.Start(start)!;
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? null : said.Trim();
        }
        catch (System.ComponentModel.Win32Exception fault)
        {
            return fault.Message;
        }
    }
}
