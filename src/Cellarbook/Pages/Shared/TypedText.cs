namespace Cellarbook.Pages.Shared;

/// <summary>Text out of a field that may stay empty.</summary>
public static class TypedText
{
    /// <summary>What was typed, without blanks around it; null when that is nothing.</summary>
    public static string? OrNull(this string? typed) => string.IsNullOrWhiteSpace(typed) ? null : typed.Trim();
}
