namespace Cellarbook.Core.Book;

/// <summary>What a trial makes known that the book doesn't know yet, by code.</summary>
/// <param name="Lots">Lots.</param>
/// <param name="Vessels">Vessels.</param>
/// <param name="Bottlings">Bottlings.</param>
public sealed record Newcomers(IReadOnlyList<string> Lots, IReadOnlyList<string> Vessels, IReadOnlyList<string> Bottlings)
{
    /// <summary>Nothing new.</summary>
    public static Newcomers None { get; } = new([], [], []);
}
