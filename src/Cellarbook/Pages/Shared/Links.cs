namespace Cellarbook.Pages.Shared;

/// <summary>Addresses of pages, in one place.</summary>
public static class Links
{
    /// <summary>A lot's page.</summary>
    public static string Lot(string code) => "/lots/" + Path(code);

    /// <summary>A vessel's page.</summary>
    public static string Vessel(string code) => "/vessels/" + Path(code);

    /// <summary>A bottling's page.</summary>
    public static string Bottling(string code) => "/bottles/" + Path(code);

    /// <summary>A delivery's page.</summary>
    public static string Delivery(Core.Book.Account delivery) => $"/stores/{Uri.EscapeDataString(delivery.Name)}/{Path(delivery.Place)}";

    /// <summary>What is in a bottling.</summary>
    public static string Trace(string bottling) => "/traces/" + Path(bottling);

    /// <summary>An entry's page.</summary>
    public static string Entry(long number) => $"/book/{number}";

    /// <summary>A form that records something, with what is known already.</summary>
    /// <param name="kind">The form: measure, add, rack …</param>
    /// <param name="known">Fields that are known, name and value by turns; those without a value are left out.</param>
    public static string Record(string kind, params string?[] known)
    {
        var query = new List<string>();
        for (var i = 0; i + 1 < known.Length; i += 2)
            if (!string.IsNullOrEmpty(known[i + 1])) query.Add($"{known[i]}={Uri.EscapeDataString(known[i + 1]!)}");
        return "/record/" + kind + (query.Count == 0 ? "" : "?" + string.Join('&', query));
    }

    /// <summary>The form that makes or changes a vessel.</summary>
    public static string VesselForm(string? code = null) => Record("vessel", "code", code);

    /// <summary>The form that takes an entry back or writes it anew.</summary>
    public static string Correct(long entry) => Record("correct", "entry", entry.ToString(System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>A code in a path: its slashes stay what they are.</summary>
    private static string Path(string code) => string.Join('/', code.Split('/').Select(Uri.EscapeDataString));
}
