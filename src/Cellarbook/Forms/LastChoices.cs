using System.Text.Json;

namespace Cellarbook.Forms;

/// <summary>
/// Units and words as last chosen on this device: a cookie, so that the phone in the cellar and the table upstairs each keep their own. What is
/// remembered is shown as filled in, never taken unseen.
/// </summary>
public sealed class LastChoices
{
    private const string Cookie = "cellarbook-last";
    private const int Most = 40;
    private readonly Dictionary<string, string> choices;

    private readonly string form;

    private LastChoices(string form, Dictionary<string, string> choices) => (this.form, this.choices) = (form, choices);

    /// <summary>Those of this device; a cookie that can't be read counts as none.</summary>
    /// <param name="form">The kind of operation; a unit chosen for fruit is none for a sample.</param>
    /// <param name="request">What was asked.</param>
    public static LastChoices Of(string form, HttpRequest request)
    {
        try
        {
            return new(form, JsonSerializer.Deserialize<Dictionary<string, string>>(request.Cookies[Cookie] ?? "{}") ?? []);
        }
        catch (JsonException)
        {
            return new(form, []);
        }
    }

    /// <summary>The unit last chosen for a field, where it is one of the field's own.</summary>
    public string? Unit(Field field) => !field.UnitIsOfTheThing && choices.TryGetValue(Name(field) + ":unit", out var unit) && field.Units.Any(known => known.Name == unit) ? unit : null;

    /// <summary>What was last said in a field that is the same from day to day, such as who did it.</summary>
    public string? Value(Field field) => field.IsRemembered && choices.TryGetValue(Name(field), out var value) && value.Length <= 100 ? value : null;

    /// <summary>Remembers a field as it was sent.</summary>
    public void Take(Field field, string? value, string? unit)
    {
        if (string.IsNullOrWhiteSpace(value))
        {
            if (field.IsRemembered) choices.Remove(Name(field));
            return;
        }
        if (field.Kind == FieldKind.Figure && field.Units.Count > 1 && !field.UnitIsOfTheThing && unit is not null)
        {
            if (unit == (field.Unit ?? field.Units[0].Name)) choices.Remove(Name(field) + ":unit");
            else choices[Name(field) + ":unit"] = unit;
        }
        if (field.IsRemembered && value.Length <= 100) choices[Name(field)] = value.Trim();
    }

    /// <summary>Keeps them on the device, for a year.</summary>
    public void Keep(HttpResponse response)
    {
        if (choices.Count > Most) return;
        response.Cookies.Append(Cookie, JsonSerializer.Serialize(choices), new() { HttpOnly = true, SameSite = SameSiteMode.Strict, MaxAge = TimeSpan.FromDays(365), IsEssential = true });
    }

    /// <summary>A field's name without the number of its line; who did it is the same in every form.</summary>
    private string Name(Field field) => (field.IsRemembered ? "" : form + ".") + string.Concat(field.Name.Split('[').Select((part, i) => i == 0 ? part : part[(part.IndexOf(']', StringComparison.Ordinal) + 1)..]));
}
