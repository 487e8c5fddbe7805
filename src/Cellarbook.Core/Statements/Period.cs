namespace Cellarbook.Core.Statements;

/// <summary>A span of days, both ends included.</summary>
public readonly record struct Period(DateOnly From, DateOnly To)
{
    /// <summary>True when the day lies in it.</summary>
    public bool Holds(DateOnly day) => day >= From && day <= To;

    /// <summary>"2025-09-01 to 2025-09-30".</summary>
    public override string ToString() => $"{From:yyyy-MM-dd} to {To:yyyy-MM-dd}";
}

/// <summary>The four places of a figure in a statement.</summary>
public enum Direction
{
    /// <summary>On hand when the period begins.</summary>
    Opening,
    /// <summary>Came in.</summary>
    In,
    /// <summary>Went out.</summary>
    Out,
    /// <summary>On hand when it ends.</summary>
    Closing,
}
