namespace Cellarbook.Pages.Shared;

/// <summary>A tab of the book.</summary>
/// <param name="Title">Its word.</param>
/// <param name="Path">Where it leads; pages below it belong to it.</param>
/// <param name="AtHand">True for the few that stay in sight on a phone; the others stand under "More".</param>
public sealed record Tab(Sentence Title, string Path, bool AtHand = false)
{
    /// <summary>True when a page belongs to this tab.</summary>
    public bool Holds(PathString page) => Path == "/" ? page == "/" || !page.HasValue : page.StartsWithSegments(Path);
}

/// <summary>The tabs, in order. A new page of the first rank is one line here.</summary>
public static class Tabs
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Tab> All { get; } =
    [
        new("Today", "/", AtHand: true),
        new("Lots", "/lots", AtHand: true),
        new("Vessels", "/vessels", AtHand: true),
        new("Bottles", "/bottles", AtHand: true),
        new("Stores", "/stores"),
        new("Book", "/book"),
        new("Statements", "/statements"),
        new("Bench", "/bench"),
        new("Settings", "/settings"),
    ];
}
