using System.Text.RegularExpressions;

namespace Cellarbook.Pages.Bench;

/// <summary>The reader's decimal mark in texts of the bench, which are written with a point.</summary>
internal static partial class Decimals
{
    /// <summary>The text with a comma between digits where the reader likes that.</summary>
    public static string Marked(string text, Shared.Show show) => show.Preferences.DecimalComma ? Point().Replace(text, ",") : text;

    [GeneratedRegex(@"(?<=\d)\.(?=\d)")]
    private static partial Regex Point();
}
