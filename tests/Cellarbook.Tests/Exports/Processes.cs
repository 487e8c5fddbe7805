using System.ComponentModel;
using System.Diagnostics;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>What an outside program answered.</summary>
public sealed record Answer(int Code, string Output, string Errors);

/// <summary>Runs outside programs that judge our files. A judge that is away is a failure, never a pass.</summary>
public static class Processes
{
    /// <summary>Runs a program to its end.</summary>
    /// <param name="program">Its name.</param>
    /// <param name="package">The Debian package it comes in.</param>
    /// <param name="patience">How long it may take.</param>
    /// <param name="arguments">What it is given.</param>
    public static Answer Run(string program, string package, TimeSpan patience, params string[] arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true };
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        // The plainest locale: what is read without complaint here is read everywhere.
        start.Environment["LC_ALL"] = "C";
        Process process;
        try
        {
            process = Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            Assert.Fail($"{program} is not here. It comes in the package {package}; `bash tests/run.sh` installs it.");
            throw;
        }
        using (process)
        {
            process.StandardInput.Close();
            var output = process.StandardOutput.ReadToEndAsync();
            var errors = process.StandardError.ReadToEndAsync();
            if (!process.WaitForExit(patience))
            {
                process.Kill(entireProcessTree: true);
                Assert.Fail($"{program} {string.Join(' ', arguments)} took longer than {patience}.");
            }
            process.WaitForExit();
            return new(process.ExitCode, output.GetAwaiter().GetResult(), errors.GetAwaiter().GetResult());
        }
    }
}

/// <summary>A folder of one test's own, gone after it.</summary>
public sealed class ScratchFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("cellarbook-test-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
