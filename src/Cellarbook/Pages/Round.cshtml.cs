using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages;

/// <summary>
/// A walk along the vessels: two figures for each, written at once, one reading each. All are looked at before the first is written; each has a
/// key of its own made from the form's, so that a form sent twice writes once.
/// </summary>
public sealed class RoundModel(Desk desk) : PageModel
{
    private const int Size = 60;

    /// <summary>A vessel of the round.</summary>
    public sealed record Row(string Place, string Lot, string Vessel, bool IsMust, string Last)
    {
        /// <summary>Gravity as typed.</summary>
        public string? Gravity { get; init; }

        /// <summary>Temperature as typed.</summary>
        public string? Temperature { get; init; }

        /// <summary>What is the matter with the gravity.</summary>
        public Sentence? GravityFault { get; set; }

        /// <summary>What is the matter with the temperature.</summary>
        public Sentence? TemperatureFault { get; set; }
    }

    /// <summary>The vessels, must first.</summary>
    public IReadOnlyList<Row> Rows { get; private set; } = [];

    /// <summary>Vessels beyond this page.</summary>
    public int Rest { get; private set; }

    /// <summary>The day, as the date field has it.</summary>
    public string Day { get; private set; } = "";

    /// <summary>What is the matter with the day.</summary>
    public Sentence? DayFault { get; private set; }

    /// <summary>Who walks.</summary>
    public string? DoneBy { get; private set; }

    /// <summary>The form's key.</summary>
    public string Key { get; private set; } = Guid.NewGuid().ToString("N");

    /// <summary>The scale sugar is read in.</summary>
    public Unit Gravity { get; private set; } = Unit.Sugars[0];

    /// <summary>The scale of temperature.</summary>
    public Unit Temperature { get; private set; } = Unit.Temperatures[0];

    /// <summary>What is wrong, each said once.</summary>
    public IReadOnlyList<Sentence> Wrong { get; private set; } = [];

    /// <summary>The input to go to.</summary>
    public string? First { get; private set; }

    /// <summary>What was written just now.</summary>
    public IReadOnlyList<(long Number, string Place)> Written { get; private set; } = [];

    /// <summary>True when something ferments.</summary>
    public bool Ferments => Rows.Any(row => row.IsMust);

    /// <summary>This page with the next scale of sugar.</summary>
    public string OtherUnits => $"/round?scale={Uri.EscapeDataString(Unit.Sugars[(Unit.Sugars.ToList().IndexOf(Gravity) + 1) % Unit.Sugars.Count].Name)}&from={From}";

    /// <summary>The next vessels.</summary>
    public string Further => $"/round?scale={Uri.EscapeDataString(Gravity.Name)}&from={From + Size}";

    private int From { get; set; }

    private static Field GravityField => new(FieldKind.Figure, "gravity", "") { Units = Unit.Sugars, IsSmall = true };

    private Field TemperatureField => Ask.Temperature("celsius", "", desk.Show.TemperatureUnit);

    /// <summary>The round, nothing typed yet.</summary>
    /// <param name="scale">The scale of sugar; left out: as last time.</param>
    /// <param name="from">How many vessels to leave out.</param>
    public void OnGet(string? scale, int from = 0)
    {
        Choose(scale, from);
        if (scale is not null)
        {
            var last = LastChoices.Of("measure", Request);
            last.Take(GravityField, "1", Gravity.Name);
            last.Keep(Response);
        }
        Day = Show.Iso(desk.Book.Today);
        DoneBy = LastChoices.Of("measure", Request).Value(Walker);
        var all = Places().ToArray();
        Rest = Math.Max(0, all.Length - From - Size);
        Rows = [.. all.Skip(From).Take(Size)];
        if (TempData["round"] is string[] written) Written = [.. written.Select(text => (long.Parse(text.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), text[(text.IndexOf(' ', StringComparison.Ordinal) + 1)..]))];
    }

    /// <summary>Writes every row that has a figure, or none.</summary>
    public IActionResult OnPost(string? scale, int from = 0)
    {
        Choose(scale, from);
        (Day, DoneBy) = (Request.Form["day"].ToString(), Request.Form["doneBy"].ToString().Trim());
        if (Request.Form["key"].ToString() is { Length: >= 8 and <= 40 } key) Key = key;
        Rows = [.. Sent()];
        var wrong = new List<Sentence>();
        var said = Rows.Where(row => row.Gravity?.Trim().Length > 0 || row.Temperature?.Trim().Length > 0).Select(row => (Row: row, Operation: Read(row, wrong))).ToArray();
        if (said.Length == 0) wrong.Add("Give at least one reading.");
        foreach (var (row, operation) in said)
            if (operation is not null && desk.Book.Replays(KeyOf(row), operation) is null) Say(row, desk.Book.Record(operation, Who, check: true).Refusals, wrong);
        if (wrong.Count == 0) return Write(said, wrong) ?? Again(wrong);
        return Again(wrong);
    }

    private IActionResult? Write((Row Row, Operation? Operation)[] said, List<Sentence> wrong)
    {
        var written = new List<string>();
        foreach (var (row, operation) in said)
        {
            var recorded = desk.Book.Record(operation!, Who, KeyOf(row));
            if (recorded.Refusals.Count > 0) Say(row, recorded.Refusals, wrong);
            else written.Add($"{recorded.Number} {(row.Vessel == Account.Unplaced ? row.Lot : row.Vessel)}");
        }
        if (wrong.Count > 0)
        {
            if (written.Count > 0) wrong.Add($"Written before that: {string.Join(", ", written)}. Send the form again for the rest; nothing is written twice.");
            return null;
        }
        var last = LastChoices.Of("measure", Request);
        last.Take(Walker, DoneBy, null);
        last.Keep(Response);
        TempData["round"] = written.ToArray();
        return Redirect($"/round?from={From}");
    }

    private PageResult Again(List<Sentence> wrong)
    {
        Wrong = [.. wrong.Distinct()];
        for (var i = 0; i < Rows.Count && First is null; i++) First = Rows[i].GravityFault is not null ? $"g{i}" : Rows[i].TemperatureFault is not null ? $"t{i}" : null;
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }

    private Operation? Read(Row row, List<Sentence> wrong)
    {
        var slip = new Slip();
        slip.Put("lot", row.Lot);
        slip.Put("vessel", row.Vessel);
        slip.Put("day", Day);
        if (DoneBy is { Length: > 0 } who) slip.Put("doneBy", who);
        FieldReading.Read(GravityField, row.Gravity, Gravity.Name, desk.Show.Preferences.DecimalComma, slip);
        FieldReading.Read(TemperatureField, row.Temperature, Temperature.Name, desk.Show.Preferences.DecimalComma, slip);
        var refusals = new List<Refusal>(slip.Faults);
        var operation = refusals.Count > 0 ? null : OperationJson.Read(JsonSerializer.SerializeToUtf8Bytes(slip.Build("measure")), refusals);
        Say(row, refusals, wrong);
        return refusals.Count > 0 ? null : operation;
    }

    private void Say(Row row, IReadOnlyList<Refusal> refusals, List<Sentence> wrong)
    {
        foreach (var refusal in refusals)
        {
            if (refusal.Path == "day") DayFault = refusal.Sentence;
            else if (refusal.Path == "celsius") row.TemperatureFault = refusal.Sentence;
            else row.GravityFault = refusal.Sentence;
            wrong.Add(refusal.Path == "day" ? refusal.Sentence : $"{(row.Vessel == Account.Unplaced ? row.Lot : row.Vessel)}: {refusal.Sentence}");
        }
    }

    private void Choose(string? scale, int from)
    {
        From = Math.Max(0, from);
        var name = (Request.HasFormContentType ? Request.Form["scale"].ToString() is { Length: > 0 } sent ? sent : scale : scale) ?? LastChoices.Of("measure", Request).Unit(GravityField);
        Gravity = Unit.Sugars.FirstOrDefault(unit => unit.Name == name) ?? Unit.Sugars[0];
        Temperature = Unit.Temperatures.First(unit => unit.Name == desk.Show.TemperatureUnit);
    }

    private IEnumerable<Row> Places() => desk.Book.Read<Row[]>(book => [.. book.Now.Places
        .Where(place => !place.IsEmpty && place.Account.Section is Section.Must or Section.Bulk)
        .OrderBy(place => place.Account.Section).ThenBy(place => place.Account.Place, StringComparer.Ordinal).ThenBy(place => place.Account.Name, StringComparer.Ordinal).Select(RowOf)]);

    private Row RowOf(Place place)
    {
        var read = new List<string>();
        DateOnly? day = null;
        foreach (var (name, write) in new (string, Func<string, string>)[] { ("gravity", desk.Show.Reading), ("celsius", desk.Show.Temperature) })
            if (place.Notes.Readings.TryGetValue(name, out var noted))
            {
                read.Add(write(noted.Text));
                if (day is null || noted.Day > day) day = noted.Day;
            }
        return new(place.Account.Name + FieldReading.At + place.Account.Place, place.Account.Name, place.Account.Place, place.Account.Section == Section.Must, day is { } on ? desk.Show.T[$"{string.Join(", ", read)} on {desk.Show.ShortDay(on)}"] : "");
    }

    /// <summary>The rows as the form was sent: a figure stays beside its vessel, whatever happened to the cellar meanwhile.</summary>
    private IEnumerable<Row> Sent()
    {
        var known = Places().ToDictionary(row => row.Place, StringComparer.Ordinal);
        for (var i = 0; i < Size && Request.Form[$"place[{i}]"].ToString() is { Length: > 0 } place; i++)
        {
            var at = place.IndexOf(FieldReading.At, StringComparison.Ordinal);
            var row = known.GetValueOrDefault(place) ?? new(place, at < 0 ? place : place[..at], at < 0 ? "" : place[(at + 1)..], false, "");
            yield return row with { Gravity = Request.Form[$"gravity[{i}]"], Temperature = Request.Form[$"celsius[{i}]"] };
        }
    }

    private string KeyOf(Row row) => $"{Key}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(row.Place)))[..16]}";

    private static Field Walker => Ask.Text("doneBy", "") with { IsRemembered = true };

    private string Who => desk.Book.ActorOf(User);
}
