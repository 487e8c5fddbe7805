using System.Net;

namespace Cellarbook.Pages.Shared;

/// <summary>Where this program is found from another device.</summary>
/// <param name="Whole">The address without a stroke at its end.</param>
/// <param name="IsSet">True when somebody said it; false when it is the one this page was opened at.</param>
/// <param name="IsLoopback">True when only the machine itself can open it.</param>
public sealed record SiteAddress(string Whole, bool IsSet, bool IsLoopback)
{
    /// <summary>The address set, else the one the page was opened at.</summary>
    public static SiteAddress Of(Preferences preferences, HttpRequest request) => preferences.Address is { } said
        ? new(said, true, Loops(new Uri(said)))
        : new($"{request.Scheme}://{request.Host}", false, Loops(new Uri($"{request.Scheme}://{request.Host}")));

    /// <summary>Reads an address; says what is the matter with it.</summary>
    public static Sentence? Read(string typed, out string whole)
    {
        whole = typed.Trim().TrimEnd('/');
        if (!Uri.TryCreate(whole, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https") || address.Host.Length == 0)
            return "Write it whole, with http:// or https:// before it, such as http://cellar.local:5080.";
        if (address.Query.Length + address.Fragment.Length + address.UserInfo.Length > 0) return "Leave out names, passwords, ? and #: only the address itself.";
        return null;
    }

    private static bool Loops(Uri address) => address.IsLoopback || IPAddress.TryParse(address.Host, out var number) && (number.Equals(IPAddress.Any) || number.Equals(IPAddress.IPv6Any));
}
