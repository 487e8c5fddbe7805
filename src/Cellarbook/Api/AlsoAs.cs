namespace Cellarbook.Api;

/// <summary>Says of an endpoint which files it gives beside its JSON, when asked for that format.</summary>
/// <param name="ContentTypes">Their media types.</param>
public sealed record AlsoAs(params IReadOnlyList<string> ContentTypes)
{
    /// <summary>CSV.</summary>
    public const string Csv = "text/csv";

    /// <summary>A workbook.</summary>
    public const string Xlsx = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
}
