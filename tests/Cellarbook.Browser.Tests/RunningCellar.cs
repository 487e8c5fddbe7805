using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;

namespace Cellarbook.Browser.Tests;

/// <summary>The real program on a loopback port of its own, over a book in a folder that is thrown away.</summary>
public sealed class RunningCellar : IAsyncDisposable
{
    private readonly Process process;
    private readonly string folder;
    private readonly HttpClient client;

    private RunningCellar(Process process, string folder, string address) => (this.process, this.folder, Address, client) = (process, folder, address, new() { BaseAddress = new(address) });

    /// <summary>Where it listens, without a slash at the end.</summary>
    public string Address { get; }

    /// <summary>An empty book.</summary>
    public static Task<RunningCellar> Empty() => Start();

    /// <summary>The demonstration book.</summary>
    public static Task<RunningCellar> Demo() => Start("--demo");

    private static async Task<RunningCellar> Start(params string[] arguments)
    {
        var folder = Directory.CreateTempSubdirectory("cellarbook-browser-").FullName;
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder };
        foreach (var argument in new[] { Path.Combine(AppContext.BaseDirectory, "Cellarbook.dll"), "--urls", "http://127.0.0.1:0" }.Concat(arguments)) start.ArgumentList.Add(argument);
        start.Environment["CELLARBOOK_DATA"] = folder;
        var process = Process.Start(start)!;
        var (said, address) = (new List<string>(), new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously));
        void Hear(string? line)
        {
            lock (said) said.Add(line ?? "");
            if (line?.StartsWith("Open http", StringComparison.Ordinal) == true) address.TrySetResult(line.Split(' ')[1]);
        }
        process.OutputDataReceived += (_, line) => Hear(line.Data);
        process.ErrorDataReceived += (_, line) => Hear(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        try
        {
            return new(process, folder, await address.Task.WaitAsync(TimeSpan.FromSeconds(60)));
        }
        catch (TimeoutException)
        {
            process.Kill(entireProcessTree: true);
            lock (said) throw new InvalidOperationException("The program did not start: " + string.Join('\n', said));
        }
    }

    /// <summary>Records through the API; a refusal fails the test.</summary>
    public async Task Write(string operation)
    {
        var answer = await client.PostAsync("/api/v1/operations", new StringContent(operation, System.Text.Encoding.UTF8, "application/json"));
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    /// <summary>Codes listed under an address of the API.</summary>
    public async Task<string[]> Codes(string path) => [.. (await client.GetFromJsonAsync<JsonElement>(path)).EnumerateArray().Select(element => element.GetProperty("code").GetString()!)];

    /// <summary>Number of the last entry.</summary>
    public async Task<long> Entries() => (await client.GetFromJsonAsync<JsonElement>("/api/v1/book")).GetProperty("entries").GetInt64();

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        client.Dispose();
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
        }
        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
