using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>An operation about a lot in one place that moves no volume, or little: pitching, reading, adding, observing.</summary>
public abstract record NoteOperation : Operation
{
    /// <summary>The lot.</summary>
    [System.Text.Json.Serialization.JsonPropertyOrder(-5)]
    public string? Lot { get; init; }

    /// <summary>The vessel; left out: the lot's one place.</summary>
    [System.Text.Json.Serialization.JsonPropertyOrder(-4)]
    public string? Vessel { get; init; }

    internal override (string Lot, string? Vessel)? About => Lot is null ? null : (Lot, Vessel);

    internal override IEnumerable<Account> NotedAt(Cellar cellar) =>
        Lot is null ? [] : cellar.PlacesOfLot(Lot).Select(place => place.Account).Where(account => Vessel is null || account.Place == Vessel);
}

/// <summary>Cultures pitched: yeast or malolactic bacteria, one or more.</summary>
public sealed record Pitch : NoteOperation
{
    /// <summary>What was pitched.</summary>
    public IReadOnlyList<Culture>? Cultures { get; init; }

    /// <summary>Temperature of the must, °C.</summary>
    public Reading? MustCelsius { get; init; }

    /// <summary>Malolactic state from now on, where said.</summary>
    public Malolactic? Malolactic { get; init; }

    /// <summary>One culture.</summary>
    public sealed record Culture
    {
        /// <summary>What it is called on the packet.</summary>
        public string? Name { get; init; }

        /// <summary>yeast or malolactic.</summary>
        public string? What { get; init; }

        /// <summary>Weight.</summary>
        public Mass? Grams { get; init; }

        /// <summary>Volume of a starter.</summary>
        public Millilitres? Millilitres { get; init; }

        /// <summary>Packets.</summary>
        public Reading? Packets { get; init; }

        /// <summary>Supplier's batch.</summary>
        public string? Batch { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        deciding.PlaceOf(Lot, Vessel, "");
        if (Cultures is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "cultures", "Say what was pitched.");
        foreach (var (culture, i) in (Cultures ?? []).Select((culture, i) => (culture, i)))
        {
            if (string.IsNullOrWhiteSpace(culture.Name)) deciding.Refuse(RefusalCode.Missing, $"cultures[{i}].name", "Name the culture.");
            if (culture.What is not (null or "yeast" or "malolactic")) deciding.Refuse(RefusalCode.UnknownWord, $"cultures[{i}].what", "Say yeast or malolactic.");
        }
    }

    internal override IEnumerable<string> MaterialsNamed => (Cultures ?? []).Select(culture => culture.Name ?? "");

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed)
    {
        var malolactic = Malolactic ?? ((Cultures ?? []).Any(culture => culture.What == "malolactic") ? Book.Malolactic.UnderWay : notes.Malolactic);
        return notes with { Cultures = notes.Cultures.Union((Cultures ?? []).Select(culture => culture.Name ?? "")), Malolactic = malolactic };
    }
}

/// <summary>Readings, any subset; a sample drawn and not returned is a posting.</summary>
public sealed record Measure : NoteOperation
{
    /// <summary>Specific gravity, by the instrument.</summary>
    public Reading? Gravity { get; init; }

    /// <summary>The hydrometer's own calibration temperature, °C.</summary>
    public Reading? CalibrationCelsius { get; init; }

    /// <summary>Temperature of the sample or the must, °C.</summary>
    public Reading? Celsius { get; init; }

    /// <summary>°Brix.</summary>
    public Reading? Brix { get; init; }

    /// <summary>°Oechsle.</summary>
    public Reading? Oechsle { get; init; }

    /// <summary>pH.</summary>
    public Reading? Ph { get; init; }

    /// <summary>Titratable acidity, g/L as tartaric acid.</summary>
    public Reading? TaGramsPerLitre { get; init; }

    /// <summary>Free sulphur dioxide, mg/L.</summary>
    public Reading? FreeSo2MgPerLitre { get; init; }

    /// <summary>Total sulphur dioxide, mg/L.</summary>
    public Reading? TotalSo2MgPerLitre { get; init; }

    /// <summary>Volatile acidity, g/L as acetic acid.</summary>
    public Reading? VaGramsPerLitre { get; init; }

    /// <summary>Residual sugar, g/L.</summary>
    public Reading? SugarGramsPerLitre { get; init; }

    /// <summary>Alcohol found, % vol; a reading, it never changes the stated strength.</summary>
    public Reading? AbvFound { get; init; }

    /// <summary>Malic acid, g/L.</summary>
    public Reading? MalicGramsPerLitre { get; init; }

    /// <summary>Malolactic state that the test shows.</summary>
    public Malolactic? Malolactic { get; init; }

    /// <summary>Sample drawn and not returned.</summary>
    public Volume? SampleLitres { get; init; }

    /// <summary>The readings given, by name.</summary>
    internal IEnumerable<(string Name, Reading Reading)> Readings => new (string, Reading?)[]
    {
        ("gravity", Gravity), ("celsius", Celsius), ("brix", Brix), ("oechsle", Oechsle), ("ph", Ph), ("taGramsPerLitre", TaGramsPerLitre),
        ("freeSo2MgPerLitre", FreeSo2MgPerLitre), ("totalSo2MgPerLitre", TotalSo2MgPerLitre), ("vaGramsPerLitre", VaGramsPerLitre),
        ("sugarGramsPerLitre", SugarGramsPerLitre), ("abvFound", AbvFound), ("malicGramsPerLitre", MalicGramsPerLitre),
    }.Where(pair => pair.Item2 is not null).Select(pair => (pair.Item1, pair.Item2!.Value));

    internal override void Decide(Deciding deciding)
    {
        if (deciding.PlaceOf(Lot, Vessel, "") is not { } place) return;
        if (!Readings.Any() && Malolactic is null && SampleLitres is null) deciding.Refuse(RefusalCode.Missing, "gravity", "Give at least one reading.");
        if (Gravity is { Value: < 0.7 or > 1.6 }) deciding.Refuse(RefusalCode.TooLargeNumber, "gravity", "A gravity lies between 0.7 and 1.6; water is 1.000.");
        foreach (var (name, reading) in Readings)
            if (name is not ("celsius" or "gravity") && reading.Value < 0) deciding.Refuse(RefusalCode.NotPositive, name, "This reading can't be below nil.");
        if (SampleLitres is not null && deciding.Positive(SampleLitres, "sampleLitres", "sample")) WaysOut.Post(deciding, "sample", place.Account, SampleLitres.Value, "sampleLitres");
        if (AbvFound is { } found && place.Account.Section == Section.Bulk && place.Standing.Strength is { } stated && Math.Abs(found.Value - stated.Hundredths / 100.0) >= 0.5)
            deciding.Raise("regauge_due", $"{found.Text} % vol was found, {stated} is stated. A reading changes nothing; re-gauge the strength if the stated one is wrong.");
    }

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with
    {
        Readings = notes.Readings.SetItems(Readings.Select(pair => KeyValuePair.Create(pair.Name, new NotedReading(pair.Reading.Text, deed.Entry, deed.Day)))),
        GravityBefore = Gravity is null ? notes.GravityBefore : notes.Readings.GetValueOrDefault("gravity"),
        Malolactic = Malolactic ?? notes.Malolactic,
    };
}

/// <summary>Materials added, several at once. Volume effect nil, except the rise that sugar or water gives to must.</summary>
public sealed record Add : NoteOperation
{
    /// <summary>What was added.</summary>
    public IReadOnlyList<Item>? Items { get; init; }

    /// <summary>One material.</summary>
    public sealed record Item
    {
        /// <summary>What it is.</summary>
        public string? Material { get; init; }

        /// <summary>Weight.</summary>
        public Mass? Grams { get; init; }

        /// <summary>Volume.</summary>
        public Millilitres? Millilitres { get; init; }

        /// <summary>Pieces, tablets, sachets.</summary>
        public Reading? Pieces { get; init; }

        /// <summary>Rate, as dosed: g/hL.</summary>
        public Reading? GramsPerHectolitre { get; init; }

        /// <summary>Rate, as dosed: mg/L.</summary>
        public Reading? MgPerLitre { get; init; }

        /// <summary>Supplier's batch.</summary>
        public string? Batch { get; init; }

        /// <summary>Volume by which it raised the must (sugar or water only).</summary>
        public Volume? RiseLitres { get; init; }

        /// <summary>What raised it: sugar or water.</summary>
        public string? RiseBy { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        var place = deciding.PlaceOf(Lot, Vessel, "");
        if (Items is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "items", "Say what was added.");
        foreach (var (item, i) in (Items ?? []).Select((item, i) => (item, i)))
        {
            var path = $"items[{i}]";
            if (string.IsNullOrWhiteSpace(item.Material)) deciding.Refuse(RefusalCode.Missing, path + ".material", "Name the material.");
            if (item.Grams is null && item.Millilitres is null && item.Pieces is null && item.GramsPerHectolitre is null && item.MgPerLitre is null)
                deciding.Refuse(RefusalCode.Missing, path + ".grams", "Say how much: grams, millilitres, pieces or a rate.");
            if (item.Grams is { Milligrams: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, path + ".grams", "The weight must be above nil.");
            if (item.Millilitres is { Volume.IsPositive: false }) deciding.Refuse(RefusalCode.NotPositive, path + ".millilitres", "The volume must be above nil.");
            foreach (var (name, reading) in new[] { ("pieces", item.Pieces), ("gramsPerHectolitre", item.GramsPerHectolitre), ("mgPerLitre", item.MgPerLitre) })
                if (reading is { Value: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, $"{path}.{name}", "The amount must be above nil.");
            if (item.RiseLitres is not null && place is not null) Rise(deciding, item, place, path);
        }
    }

    internal override IEnumerable<string> MaterialsNamed => (Items ?? []).Select(item => item.Material ?? "");

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with { Additions = notes.Additions.Add(deed.Entry) };

    private static void Rise(Deciding deciding, Item item, Place place, string path)
    {
        if (!deciding.Positive(item.RiseLitres, path + ".riseLitres", "rise")) return;
        if (place.Account.Section != Section.Must) deciding.Refuse(RefusalCode.WrongAccount, path + ".riseLitres", "What raises the volume of wine is a process: sweeten, ameliorate or fortify it.");
        else if (item.RiseBy == "sugar") deciding.Post("SUGAR_VOLUME_MUST", Account.Counter("MAT:SUGAR"), place.Account, item.RiseLitres!.Value);
        else if (item.RiseBy == "water") deciding.Post("WATER_ADDED_MUST", Account.Counter("MAT:WATER"), place.Account, item.RiseLitres!.Value);
        else deciding.Refuse(RefusalCode.UnknownWord, path + ".riseBy", "Say what raised the volume: sugar or water.");
    }
}

/// <summary>Something seen or done that moves nothing: degassed, stirred, cap punched, clarity, taste, a vessel cleaned.</summary>
public sealed record Observe : NoteOperation
{
    /// <summary>degassed, stirred, capPunched, clarity, taste, cleaned, other.</summary>
    public string? What { get; init; }

    /// <summary>What was seen.</summary>
    public string? Finding { get; init; }

    internal override IEnumerable<string> SaidWords => What is null ? [] : [What];

    // What a vessel was cleaned with stands in the finding, the method or the note.
    internal override IEnumerable<string> MaterialsNamed => new[] { Finding, Method, Note }.OfType<string>();

    internal override void Decide(Deciding deciding)
    {
        if (What is not ("degassed" or "stirred" or "capPunched" or "clarity" or "taste" or "cleaned" or "other"))
            deciding.Refuse(What is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "what", "Say what: degassed, stirred, capPunched, clarity, taste, cleaned or other.");
        if (Lot is not null) deciding.PlaceOf(Lot, Vessel, "");
        else if (Vessel is null) deciding.Refuse(RefusalCode.Missing, "lot", "Name the lot, or the vessel.");
        else deciding.VesselKnown(Vessel, "vessel");
    }
}
