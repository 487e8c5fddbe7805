using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A limit set of the maker's own: a packet's instruction, a buyer's specification, a house rule. Refused whole when one row is broken; the newest
/// of a code is in force, so an earlier one stays in force until a good one follows.
/// </summary>
public sealed record StateLimits : Operation
{
    /// <summary>Its code.</summary>
    public string? Code { get; init; }

    /// <summary>In words; left out: the code.</summary>
    public string? Name { get; init; }

    /// <summary>packet, buyer or house.</summary>
    public string? As { get; init; }

    /// <summary>Whose it is.</summary>
    public string? Who { get; init; }

    /// <summary>The last day it is in force; left out: no end.</summary>
    public DateOnly? Expires { get; init; }

    /// <summary>Its rows, column by column as text, in the form of the files of law.</summary>
    public IReadOnlyList<LimitLine>? Rows { get; init; }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    internal override void Decide(Deciding deciding)
    {
        if (deciding.NameOk(Code, "code", "limit set") && LawSets.Find(Code!) is not null) deciding.Refuse(RefusalCode.BadName, "code", $"“{Code}” is a law here. Choose another code for a set of your own.");
        if (As is not ("packet" or "buyer" or "house")) deciding.Refuse(As is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "as", "Say what it is: packet, buyer or house.");
        if (As is "packet" or "buyer" && string.IsNullOrWhiteSpace(Who)) deciding.Refuse(RefusalCode.Missing, "who", "Say whose packet or which buyer.");
        if (Expires < Day) deciding.Refuse(RefusalCode.LimitsExpired, "expires", $"It expired on {Expires:yyyy-MM-dd}. Ask for the one in force.");
        if (Rows is null or { Count: 0 }) { deciding.Refuse(RefusalCode.Missing, "rows", "Give at least one row."); return; }
        foreach (var fault in LimitSetReader.Read(Rows, Heading).Faults)
            deciding.Refuse(RefusalCode.LimitsUnreadable, fault.Column.Length > 0 ? $"rows[{fault.Row - 1}].{fault.Column}" : $"rows[{fault.Row - 1}]", Sentence.Verbatim(fault.ToString()), fault.Row);
    }

    /// <summary>The set it states.</summary>
    internal LimitSet Set => LimitSetReader.Read(Rows!, Heading).Set ?? throw new InvalidOperationException("A refused limit set can't be in the book.");

    private LimitSet Heading => new() { Code = Code ?? "", Name = Name ?? Code ?? "", Kind = As ?? "house", Who = Who ?? "", Expires = Expires, Source = Document ?? "", Note = Note ?? "", Rows = [] };
}
