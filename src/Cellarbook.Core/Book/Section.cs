namespace Cellarbook.Core.Book;

/// <summary>What a stock account holds.</summary>
public enum Section
{
    /// <summary>No stock: a counter-account.</summary>
    None,
    /// <summary>Unfermented or fermenting liquid.</summary>
    Must,
    /// <summary>Wine in vessels.</summary>
    Bulk,
    /// <summary>Wine in closed bottles.</summary>
    Bottled,
    /// <summary>Fruit by weight.</summary>
    Fruit,
    /// <summary>The clearing account of a process; nil at the end of its entry.</summary>
    Process,
    /// <summary>Materials in store, by delivery.</summary>
    Stores,
}

/// <summary>Names of the sections as they stand in files and in account names.</summary>
public static class Sections
{
    /// <summary>"must", "bulk", "bottled" or "fruit", as in the CSV files.</summary>
    public static string Word(this Section section) => section switch
    {
        Section.Must => "must",
        Section.Bulk => "bulk",
        Section.Bottled => "bottled",
        Section.Fruit => "fruit",
        Section.Process => "process",
        Section.Stores => "stores",
        _ => "",
    };

    /// <summary>True for the five that hold stock from one entry to the next.</summary>
    public static bool IsStock(this Section section) => section is Section.Must or Section.Bulk or Section.Bottled or Section.Fruit or Section.Stores;

    /// <summary>True for the two that hold wine.</summary>
    public static bool IsWine(this Section section) => section is Section.Bulk or Section.Bottled;
}
