using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cellarbook.Core.Book;
using Cellarbook.Core.Cautions;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Forms;

/// <summary>
/// A form for one thing a maker says. It asks, fills in what follows, shows what would be written, and sends the operation through the one door;
/// what the book refuses stands at the field, and everything typed stays. It works without script.
/// </summary>
public abstract class FormPage(Desk desk) : PageModel
{
    /// <summary>Under what the remarks on an entry just written wait for the page that shows it.</summary>
    public const string Remarks = "remarks";

    private const string RowsPrefix = "rows:";
    private readonly Dictionary<string, int> rows = new(StringComparer.Ordinal);
    private LastChoices? last;
    private (CellarChoices? Of, FilledPlace? Place) here;
    private readonly Dictionary<string, List<Sentence>> faults = new(StringComparer.Ordinal);

    /// <summary>What the form is called.</summary>
    public abstract Sentence Title { get; }

    /// <summary>One sentence on what it is for.</summary>
    public virtual Sentence? Lead => null;

    /// <summary>The usual cautions for this form, the loud ones first.</summary>
    public IReadOnlyList<Heeded> Care { get; private set; } = [];

    /// <summary>Codes of the cautions that stood out when the form was last shown.</summary>
    public string SeenCautions { get; private set; } = "";

    /// <summary>True when a caution that stands out asks for a reason.</summary>
    public bool AsksReason { get; private set; }

    /// <summary>The word the operation will be said with, where the page was opened for one; cautions go by it.</summary>
    protected virtual string? Word => null;

    /// <summary>A link that stands below the heading: where it leads and what it says.</summary>
    public virtual (string Address, Sentence Text)? Aside => null;

    /// <summary>Three figures of which any two tell the third (the first is the sum of the others), by name; for a browser with script to say so at once.</summary>
    public virtual string? Third => null;

    /// <summary>What the day is called.</summary>
    protected virtual Sentence DayLabel => "Day";

    /// <summary>The operation's kind.</summary>
    protected abstract string Kind { get; }

    /// <summary>The parts of the form.</summary>
    public IReadOnlyList<Group> Groups { get; private set; } = [];

    /// <summary>How many lines each list shows, for the form to send back.</summary>
    public IReadOnlyDictionary<string, int> RowCounts => rows;

    /// <summary>The request's own key: a double click records once.</summary>
    public string Key { get; private set; } = "";

    /// <summary>What the book says about the whole, or about a field that isn't here.</summary>
    public IReadOnlyList<Refusal> Refusals { get; private set; } = [];

    /// <summary>What would be written, after a look.</summary>
    public FormPreview? Preview { get; private set; }

    /// <summary>Vessels worth measuring, where more was to come out than the book holds.</summary>
    public IReadOnlyList<string> WorthGauging { get; private set; } = [];

    /// <summary>The entry this form corrects, if any.</summary>
    public EarlierEntry? Corrects { get; private set; }

    /// <summary>What of the corrected entry this form doesn't ask for; it is kept.</summary>
    public IReadOnlyList<KeyValuePair<string, JsonNode>> Kept { get; private set; } = [];

    /// <summary>The cellar to choose from.</summary>
    public CellarChoices Cellar { get; private set; } = null!;

    /// <summary>The input that asks for attention first, for the page to go to.</summary>
    public string? FirstWrong { get; private set; }

    /// <summary>What is at hand.</summary>
    public Desk Desk => desk;

    /// <summary>The unit volumes are typed in unless said otherwise.</summary>
    protected string VolumeUnit => desk.Show.VolumeUnit;

    /// <summary>The place the page was opened for, if something lies there.</summary>
    protected FilledPlace? Here => here.Of == Cellar ? here.Place : (here = (Cellar, Cellar.Find(Query("lot"), Query("vessel")))).Place;

    /// <summary>Every field, in order.</summary>
    private List<Field> Fields => [.. Groups.SelectMany(group => group.Lines).SelectMany(line => line.Fields)];

    /// <summary>The parts of the form, by what the cellar holds.</summary>
    protected abstract IEnumerable<Group> Questions();

    /// <summary>Fills in what follows from what was said.</summary>
    protected virtual void Complete(Slip slip)
    {
    }

    /// <summary>The form as it is opened.</summary>
    public IActionResult OnGet()
    {
        if (Query("corrects") is { } number && !FindCorrected(number)) return RedirectToPage("/Record/Correct", new { entry = number });
        Lay();
        return Page();
    }

    /// <summary>The form as it comes back: look, write, or one more line.</summary>
    public IActionResult OnPost(string? does)
    {
        if (Query("corrects") is { } number && !FindCorrected(number)) return RedirectToPage("/Record/Correct", new { entry = number });
        Lay(does?.StartsWith("more:", StringComparison.Ordinal) == true ? does[5..] : null);
        if (does is not ("look" or "write")) return Page();
        var slip = new Slip();
        foreach (var (path, node) in Kept) slip.PutJson(path, node);
        foreach (var field in Fields.Where(field => !field.Name.StartsWith("correct.", StringComparison.Ordinal)))
            FieldReading.Read(field, Posted(field.Name), Posted(field.UnitName), desk.Show.Preferences.DecimalComma, slip);
        Complete(slip);
        var body = slip.Build(Kind);
        if (Corrects is not null) body = Correction(body, slip);
        if (slip.Faults.Count > 0) return Refused(slip.Faults, slip);
        var refusals = new List<Refusal>();
        if (OperationJson.Read(JsonSerializer.SerializeToUtf8Bytes(body), refusals) is not { } operation) return Refused(refusals, slip);
        return Send(operation, slip, writes: does == "write");
    }

    /// <summary>What stands in a field: as typed, else as the corrected entry had it, else as proposed.</summary>
    public string Value(Field field)
    {
        if (Request.HasFormContentType) return field.Kind == FieldKind.Fixed ? field.Proposed ?? "" : Posted(field.Name) ?? "";
        if (HandedOver(field) is { } figure) return desk.Show.Mark(figure);
        return Corrects is not null && !field.Name.StartsWith("correct.", StringComparison.Ordinal) ? Corrects.Value(field, desk.Show) ?? (field.GoesAlong ? field.Proposed ?? "" : "") : field.Proposed ?? Last.Value(field) ?? "";
    }

    /// <summary>A figure that another page hands over in the address, named as in the operation and in the book's own unit.</summary>
    private string? HandedOver(Field field) => field.Kind == FieldKind.Figure && !Request.HasFormContentType
        ? Request.Query.Where(pair => field.Fills(pair.Key)).Select(pair => pair.Value.ToString()).FirstOrDefault(value => value.Length is > 0 and <= Figure.Longest)
        : null;

    /// <summary>The unit chosen beside a figure.</summary>
    public string UnitOf(Field field) => (Request.HasFormContentType ? Posted(field.UnitName) : HandedOver(field) is not null ? field.Units[0].Name : Corrects is not null ? Corrects.Unit(field, desk.Show) : field.Proposed is null ? Last.Unit(field) : null) ?? field.Unit ?? field.Units[0].Name;

    /// <summary>What was last chosen on this device.</summary>
    private LastChoices Last => last ??= LastChoices.Of(Kind, Request);

    /// <summary>What is wrong with a field.</summary>
    public IReadOnlyList<Sentence> FaultsOf(Field field) => faults.TryGetValue(field.Name, out var found) ? found : [];

    /// <summary>True when a part of the form is to be open.</summary>
    public bool IsOpen(Group group) => !group.IsFolded || (AsksReason && group.Lines.Any(line => line.Fields.Any(field => field.Name == "reason"))) || group.Lines.SelectMany(line => line.Fields).Any(field => FaultsOf(field).Count > 0 || (field.Kind != FieldKind.Fixed && !field.GoesAlong && Value(field).Length > 0 && (Request.HasFormContentType || Corrects is not null || field.Proposed is null)));

    /// <summary>A word of the address, or null.</summary>
    protected string? Query(string name) => Request.Query[name].ToString() is { Length: > 0 } value ? value : null;

    /// <summary>How many lines a list shows: as sent back, else as the corrected entry had, else as many as usual.</summary>
    protected int Rows(string list, int usual)
    {
        if (!rows.TryGetValue(list, out var count))
        {
            count = int.TryParse(Posted(RowsPrefix + list), NumberStyles.None, CultureInfo.InvariantCulture, out var sent) ? sent : Math.Max(usual, Corrects?.Lines(list) ?? 0);
            rows[list] = count = Math.Clamp(count, 1, 100);
        }
        return count;
    }

    /// <summary>The lot and vessel asked for; settled where the page was opened for one.</summary>
    protected Field PlaceField(string path, Sentence label, IReadOnlyList<Choice> places)
    {
        var field = Ask.Place(path, label, places);
        if (Corrects is not null || Here is not { } here || !places.Any(choice => choice.Value == here.Value)) return places.Count == 1 && Corrects is null ? field with { Proposed = places[0].Value } : field;
        return field with { Proposed = here.Value, Settled = places.First(choice => choice.Value == here.Value).Text };
    }

    private void Lay(string? oneMore = null)
    {
        var day = DateOnly.TryParseExact(Posted("day") ?? Query("day") ?? Corrects?.Value(Ask.Day("day", ""), desk.Show) ?? "", "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var chosen) ? chosen : desk.Book.Today;
        Cellar = desk.Cellar(day < desk.Book.Today ? day : null);
        Key = Posted("key") is { Length: >= 8 and <= 64 } key ? key : Guid.NewGuid().ToString("N");
        if (oneMore is not null) rows[oneMore] = Math.Clamp(Rows(oneMore, 1) + 1, 1, 100);
        var today = Ask.Day("day", DayLabel) with { Proposed = Pages.Shared.Show.Iso(desk.Book.Today), Hint = Corrects is null && day == desk.Book.Today ? (Sentence)$"Today, {desk.Show.Day(day)}, is filled in." : (Sentence)$"{desk.Show.Day(day)}: the day it happened." };
        // The day stands last of what is always asked: it is filled in and seldom changed.
        var questions = Questions().ToList();
        questions.Insert(questions.FindLastIndex(group => !group.IsFolded) + 1, Ask.Group("", today));
        Groups = questions;
        var asked = Fields.Select(field => field.Name).ToHashSet(StringComparer.Ordinal);
        Groups = [.. Groups, MoreForTheRecord.Group(desk.IsLicensed, Corrects is not null, asked)];
        ViewData["Title"] = Title;
        Care = desk.Book.Read(book => CautionSheet.Before(Kind, Here is { } here ? book.Now.At(here.IsMust ? Account.Must(here.Lot, here.Vessel) : Account.Bulk(here.Lot, here.Vessel)) : null, Word, book.IsHousehold));
        if (Corrects is null) return;
        Kept = [.. Corrects.Unasked(Fields)];
        Groups = [.. Groups, CorrectionGroup.Of(Corrects.Number, desk.Book.Today)];
    }

    private bool FindCorrected(string number)
    {
        if (!long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var entry)) return false;
        var operation = desk.Book.Read(found => found.Find(entry)?.Operation);
        if (operation is Correct { Write: [var one] }) operation = one;
        if (operation is null or Correct || OperationJson.KindOf(operation) != Kind) return false;
        Corrects = new(entry, operation);
        return true;
    }

    private JsonObject Correction(JsonObject write, Slip slip)
    {
        var outer = new Slip();
        foreach (var field in CorrectionGroup.Of(Corrects!.Number, desk.Book.Today).Lines.SelectMany(line => line.Fields))
            FieldReading.Read(field with { Name = field.Name["correct.".Length..] }, Posted(field.Name), null, false, outer);
        slip.Faults.AddRange(outer.Faults.Select(fault => fault with { Path = "correct." + fault.Path }));
        var body = outer.Build("correct");
        body["takesBack"] = Corrects.Number;
        body["write"] = write;
        return body;
    }

    private IActionResult Send(Operation operation, Slip slip, bool writes)
    {
        var book = desk.Book;
        var seen = long.TryParse(Posted("seen"), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : Cellar.LastNumber;
        // A second click comes with the key of the first and gets the first answer, however the cellar looks by now.
        if (writes && book.Store.FindKey(Key) is not null) return Answer(book.Record(operation, Who, Key), operation, slip);
        var looked = book.Record(operation, Who, check: true);
        if (looked.Refusals.Count > 0) return Answer(looked, operation, slip);
        var meanwhile = seen == Cellar.LastNumber ? [] : desk.Meanwhile(looked.Trial!, seen);
        var loud = looked.Trial!.Cautions.Where(heeded => heeded.IsLoud).Select(heeded => heeded.Caution).ToArray();
        var unheeded = string.IsNullOrWhiteSpace(operation.Reason) ? loud.Where(caution => caution.AsksReason && !(Posted("cautions") ?? "").Split(' ').Contains(caution.Code)).ToArray() : [];
        if (writes && meanwhile.Count == 0 && unheeded.Length == 0) return Answer(book.Record(operation, Who, Key), operation, slip);
        AsksReason = unheeded.Length > 0;
        if (AsksReason) FirstWrong = "reason";
        SeenCautions = string.Join(' ', loud.Select(caution => caution.Code));
        // What stands out by what was typed stands in the preview; what stood out before stays where it was.
        var stood = Care.Where(heeded => heeded.IsLoud).Select(heeded => heeded.Caution).ToArray();
        Preview = FormPreview.Of(looked.Trial, operation, Said(), [.. meanwhile, .. loud.Where(caution => caution.AsksReason || !stood.Contains(caution)).Select(caution => caution.Sentence)], desk.Show);
        return Page();
    }

    private IActionResult Answer(Recorded recorded, Operation operation, Slip slip)
    {
        if (recorded.Refusals.Count == 0)
        {
            Remember();
            TempData[Remarks] = recorded.Flags.Select(flag => flag.Sentence).Concat((recorded.Trial?.Cautions ?? []).Where(heeded => heeded.IsLoud && heeded.Caution.Materials.Count > 0).Select(heeded => heeded.Caution.Sentence)).Take(10).Select(sentence => desk.Show.T[sentence]).Prepend(recorded.Number!.Value.ToString(CultureInfo.InvariantCulture)).ToArray();
            return RedirectToPage("/Record/Written", new { entry = recorded.Number });
        }
        if (recorded.Refusals.Any(refusal => refusal.Code == RefusalCode.KeyUsed))
        {
            var first = desk.Book.Store.FindKey(Key)!.Number;
            Key = Guid.NewGuid().ToString("N");
            return Refused([new(RefusalCode.KeyUsed, "", $"This form was written already, as entry {first}, and says something else now. If it is something more, write it once again; to change entry {first}, correct that.")], slip);
        }
        return Refused(recorded.Refusals, slip);
    }

    /// <summary>Units and words that are the same from day to day are filled in next time.</summary>
    private void Remember()
    {
        if (Corrects is not null) return;
        foreach (var field in Fields.Where(field => field.Kind != FieldKind.Fixed)) Last.Take(field, Posted(field.Name), Posted(field.UnitName));
        Last.Keep(Response);
    }

    private PageResult Refused(IReadOnlyList<Refusal> refusals, Slip slip)
    {
        var left = new List<Refusal>();
        foreach (var refusal in refusals)
        {
            left.Add(refusal);
            if (InputOf(refusal, slip) is not { } input) continue;
            if (!faults.TryGetValue(input.Name, out var found)) faults.Add(input.Name, found = []);
            if (!found.Contains(refusal.Sentence)) found.Add(refusal.Sentence);
        }
        Refusals = left;
        FirstWrong = Fields.Find(field => FaultsOf(field).Count > 0)?.Name;
        WorthGauging = [.. refusals.Where(refusal => refusal.Code is RefusalCode.MoreThanIsThere).Select(refusal => slip.VesselDrawnFrom(PathInForm(refusal))).OfType<string>().Distinct()];
        Response.StatusCode = Api.Problem.StatusOf(refusals[0].Code);
        return Page();
    }

    /// <summary>Where what is refused stands in the operation that this form writes.</summary>
    private string PathInForm(Refusal refusal) => Corrects is null ? refusal.Path
        : refusal.Path.StartsWith("write[0].", StringComparison.Ordinal) ? refusal.Path["write[0].".Length..]
        : refusal.Path.StartsWith("write.", StringComparison.Ordinal) ? refusal.Path["write.".Length..]
        : refusal.Path is "reason" or "day" ? "correct." + refusal.Path : refusal.Path;

    /// <summary>The field a refusal is about: the one that fills its path, one below it, or one beside it where it is left unasked.</summary>
    private Field? InputOf(Refusal refusal, Slip slip)
    {
        var fields = Fields.Where(field => field.Kind != FieldKind.Fixed).ToList();
        var path = slip.Original(PathInForm(refusal));
        return fields.Find(field => field.Fills(path))
            ?? (path.Length == 0 ? null : fields.Find(field => field.Name.StartsWith(path + ".", StringComparison.Ordinal) || field.Name.StartsWith(path + "[", StringComparison.Ordinal)))
            ?? (path.LastIndexOf('.') is > 0 and var end ? fields.Find(field => field.Name.StartsWith(path[..end] + ".", StringComparison.Ordinal)) : null);
    }

    /// <summary>What was filled in, in the form's own words.</summary>
    private List<Sentence> Said() =>
        [.. Groups.SelectMany(group => group.Lines).SelectMany(line => line.Fields).Where(field => field.Kind != FieldKind.Fixed && field.Name is not ("day" or "correct.day") && Value(field).Length > 0)
            .Select(field => field.Kind switch
            {
                FieldKind.Figure => $"{field.Label}: {Value(field)} {UnitOf(field)}",
                FieldKind.Tick => field.Label,
                FieldKind.Word or FieldKind.Place or FieldKind.Shelf => $"{field.Label}: {field.Choices.FirstOrDefault(choice => choice.Value == Value(field))?.Text ?? Sentence.Verbatim(Value(field))}",
                _ => $"{field.Label}: {Value(field)}",
            })];

    /// <summary>Who records: who signed in, else the owner of the book.</summary>
    private string Who => desk.Book.ActorOf(User);

    private string? Posted(string name) => Request.HasFormContentType && Request.Form.TryGetValue(name, out var value) ? value.ToString() : null;
}

/// <summary>What would be written: what moves, what was said, what is worth knowing.</summary>
/// <param name="Moves">Postings in words.</param>
/// <param name="Said">What was filled in.</param>
/// <param name="Flags">What the book remarks.</param>
/// <param name="Care">Cautions, and what changed meanwhile.</param>
public sealed record FormPreview(IReadOnlyList<Sentence> Moves, IReadOnlyList<Sentence> Said, IReadOnlyList<Flag> Flags, IReadOnlyList<Sentence> Care)
{
    /// <summary>The preview of a trial.</summary>
    public static FormPreview Of(Trial trial, Operation operation, IReadOnlyList<Sentence> said, IReadOnlyList<Sentence> care, Pages.Shared.Show show)
    {
        var moves = trial.Entries[0].Deeds.SelectMany(deed => deed.Postings).Select(posting => PostingWords.Say(posting, show));
        if (operation is Correct { TakesBack: { } taken }) moves = moves.Prepend($"Entry {taken} is taken back{(trial.Entries[0].LeavesOut ? Sentence.Empty : ", by the postings below")}.");
        return new([.. moves], said, trial.Flags, care);
    }
}
