using System.Net;

namespace Cellarbook.Accounts;

/// <summary>Addresses the program listens on.</summary>
public static class Listening
{
    /// <summary>True for an address that only this machine itself can reach.</summary>
    public static bool IsLoopback(string address)
    {
        // "http://*:5080" and "http://+:5080" are no addresses a parser knows; they mean every one.
        if (!Uri.TryCreate(address.Replace("://*", "://0.0.0.0", StringComparison.Ordinal).Replace("://+", "://0.0.0.0", StringComparison.Ordinal), UriKind.Absolute, out var uri)) return false;
        return IsLoopbackName(uri.Host);
    }

    /// <summary>True for a name of this machine itself.</summary>
    public static bool IsLoopbackName(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));

    /// <summary>The addresses that the settings of the web server name.</summary>
    public static IReadOnlyList<string> Of(IConfiguration settings, string usual)
    {
        var endpoints = settings.GetSection("Kestrel:Endpoints").GetChildren().Select(endpoint => endpoint["Url"]).OfType<string>().ToArray();
        if (endpoints.Length > 0) return endpoints;
        if (settings["urls"] is { Length: > 0 } urls) return urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return [usual];
    }

    /// <summary>Why the program doesn't start there; null when it may.</summary>
    public static string? Refusal(IEnumerable<string> addresses, bool hasOwner) =>
        !hasOwner && addresses.FirstOrDefault(address => !IsLoopback(address)) is { } open
            ? $"Others could reach {open}, and the book has no password yet. Give it one first, with the command “password”, or in Settings while it listens on this machine alone; then start it there again."
            : null;
}
