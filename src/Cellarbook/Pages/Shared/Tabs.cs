namespace Cellarbook.Pages.Shared;

/// <summary>A tab of the book.</summary>
/// <param name="Title">Its word.</param>
/// <param name="Path">Where it leads; pages below it belong to it.</param>
public sealed record Tab(Sentence Title, string Path)
{
    /// <summary>True when a page belongs to this tab.</summary>
    public bool Holds(PathString page) => Path == "/" ? page == "/" || !page.HasValue : page.StartsWithSegments(Path);
}

/// <summary>The tabs, in order. A new page of the first rank is one line here.</summary>
public static class Tabs
{
    private const int Few = 4;
    private static readonly string[] OfHousehold = ["/", "/lots", "/stores", "/bottles", "/vessels"];
    private static readonly string[] OfMaker = ["/", "/lots", "/vessels", "/bottles"];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<Tab> All { get; } =
    [
        new("Today", "/"),
        new("Lots", "/lots"),
        new("Vessels", "/vessels"),
        new("Bottles", "/bottles"),
        new("Stores", "/stores"),
        new("Book", "/book"),
        new("Statements", "/statements"),
        new("Bench", "/bench"),
        new("Rules", "/rules"),
        new("Settings", "/settings"),
    ];

    /// <summary>The few that stay in sight: on a phone for everybody, on every screen for a household. The others stand under "More".</summary>
    public static IReadOnlyList<Tab> AtHand(bool household) =>
        [.. (household ? OfHousehold : OfMaker).Select(path => All.FirstOrDefault(tab => tab.Path == path)).OfType<Tab>().Take(Few)];
}
