namespace Cellarbook.Forms;

/// <summary>Words and sizes that several forms propose.</summary>
public static class Bottlings
{
    /// <summary>Usual sizes, mL; any other may be typed.</summary>
    public static IReadOnlyList<Choice> Sizes { get; } = [.. new[] { "187", "250", "375", "500", "750", "1000", "1500", "3000" }.Select(size => new Choice(size, Sentence.Verbatim(size + " mL")))];

    /// <summary>What may be known of the malolactic ferment.</summary>
    public static IReadOnlyList<Choice> MalolacticStates { get; } = [new("unknown", "not known"), new("unwanted", "not wanted"), new("underWay", "under way"), new("done", "done")];
}
