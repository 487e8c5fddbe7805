using Cellarbook.Forms;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Record;

/// <summary>Everything that can be written.</summary>
public sealed class IndexModel(Desk desk) : PageModel
{
    private static readonly string[] Carried = ["lot", "vessel", "bottling"];

    /// <summary>True for a maker who answers to an authority.</summary>
    public bool IsLicensed => desk.IsLicensed;

    /// <summary>The lot, vessel or bottling the page was opened for, carried on to the forms.</summary>
    public QueryString Carry => QueryString.Create(Carried.Select(name => KeyValuePair.Create(name, Request.Query[name].ToString())).Where(pair => pair.Value.Length > 0)!);
}
