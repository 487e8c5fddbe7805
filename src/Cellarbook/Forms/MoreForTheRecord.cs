namespace Cellarbook.Forms;

/// <summary>Facts that may come with anything. A household is asked for few; who answers to an authority, for all that one may want.</summary>
public static class MoreForTheRecord
{
    /// <summary>The folded part of a form that asks for them.</summary>
    /// <param name="isLicensed">True for a maker who answers to an authority.</param>
    /// <param name="all">True to ask for all of them in any case, so that a correction shows what was said.</param>
    /// <param name="asked">Fields the form asks for already.</param>
    public static Group Group(bool isLicensed, bool all, IReadOnlySet<string> asked)
    {
        var fields = new List<Field>
        {
            new(FieldKind.Time, "time", "Time") { IsOptional = true },
            Optional("doneBy", "Done by") with { IsRemembered = true },
            Optional("reason", "Reason"),
            Ask.Word("estimated", "The figures were", [new("false", "measured"), new("true", "estimated")]) with { IsYesNo = true, IsOptional = true },
        };
        if (isLicensed || all)
            fields.AddRange([Optional("document", "Document"), Optional("supplier", "Supplier, grower or consignor"), Optional("recipient", "Recipient or consignee"), Optional("destination", "Where it went"),
                Optional("witness", "Witness"), Optional("method", "Method"), Optional("instrument", "Instrument or report"),
                Ask.Word("colour", "Colour", [new("white", "white"), new("rosé", "rosé"), new("red", "red")]) with { IsOptional = true },
                Optional("enteredBy", "Written down by"), Ask.Day("enteredOn", "Written down on") with { IsOptional = true }]);
        fields.Add(Ask.LongText("note", "Note"));
        return Ask.Folded(isLicensed ? "More for the record" : "Time, who, why, a note", [.. fields.Where(field => !asked.Contains(field.Name))]);
    }

    private static Field Optional(string name, Sentence label) => Ask.Text(name, label) with { IsOptional = true };
}

/// <summary>What a correction asks besides.</summary>
public static class CorrectionGroup
{
    /// <summary>The part of the form.</summary>
    public static Group Of(long entry, DateOnly today) => Ask.Group($"In place of entry {entry}",
        Ask.Text("correct.reason", "Why it is corrected"),
        Ask.Day("correct.day", "Corrected on") with { Proposed = Pages.Shared.Show.Iso(today) }) with { Lead = $"Entry {entry} is taken back and this is written instead. Both stay in the book." };
}
