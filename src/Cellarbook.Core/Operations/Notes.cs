using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

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

        /// <summary>Supplier's batch, where it isn't kept in the stores.</summary>
        public string? Batch { get; init; }

        /// <summary>The delivery it came from; left out: the oldest in store; "unknown" for none in the book.</summary>
        public string? Delivery { get; init; }

        internal SaidAmount Said => new(Grams, Millilitres, Packets, null, null);
    }

    internal override void Decide(Deciding deciding)
    {
        var place = deciding.PlaceOf(Lot, Vessel, "");
        if (Cultures is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "cultures", "Say what was pitched.");
        foreach (var (culture, i) in (Cultures ?? []).Select((culture, i) => (culture, i)))
        {
            if (string.IsNullOrWhiteSpace(culture.Name)) deciding.Refuse(RefusalCode.Missing, $"cultures[{i}].name", "Name the culture.");
            if (culture.What is not (null or "yeast" or "malolactic")) deciding.Refuse(RefusalCode.UnknownWord, $"cultures[{i}].what", "Say yeast or malolactic.");
            if (culture.Grams is { Milligrams: <= 0 } || culture.Millilitres is { Volume.IsPositive: false } || culture.Packets is { Value: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, $"cultures[{i}].grams", "The amount must be above nil.");
            // A culture whose amount nobody noted is kept as written.
            if (!deciding.Refused && culture.Said.Says && place is { Volume.IsPositive: true }) UsedMaterial.Use(deciding, new(culture.Name!, culture.Delivery, culture.Said) { Batch = culture.Batch, AsPackets = true }, [(place.Account, place.Volume)], $"cultures[{i}]");
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

    /// <summary>What a laboratory found of other substances, such as copper or sorbic acid.</summary>
    public IReadOnlyList<Content>? Contents { get; init; }

    /// <summary>A substance found.</summary>
    public sealed record Content
    {
        /// <summary>Its code, such as "copper"; those of the limit sets.</summary>
        public string? Substance { get; init; }

        /// <summary>How much of it, mg/L.</summary>
        public Reading? MgPerLitre { get; init; }
    }

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
        CheckContents(deciding);
        if (!Readings.Any() && Malolactic is null && SampleLitres is null && Contents is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "gravity", "Give at least one reading.");
        if (Gravity is { Value: < 0.7 or > 1.6 }) deciding.Refuse(RefusalCode.TooLargeNumber, "gravity", "A gravity lies between 0.7 and 1.6; water is 1.000.");
        foreach (var (name, reading) in Readings)
            if (name is not ("celsius" or "gravity") && reading.Value < 0) deciding.Refuse(RefusalCode.NotPositive, name, "This reading can't be below nil.");
        if (SampleLitres is not null && deciding.Positive(SampleLitres, "sampleLitres", "sample")) WaysOut.Post(deciding.At("sampleLitres"), "sample", place.Account, SampleLitres.Value, "sampleLitres");
        if (AbvFound is { } found && place.Account.Section == Section.Bulk && place.Standing.Strength is { } stated && Math.Abs(found.Value - stated.Hundredths / 100.0) >= 0.5)
            deciding.Raise("regauge_due", $"{found.Text} % vol was found, {stated} is stated. A reading changes nothing; re-gauge the strength if the stated one is wrong.");
    }

    internal override IEnumerable<(Limits.Substance Substance, Dose Found)> ContentsFound
    {
        get
        {
            foreach (var (name, reading) in Readings)
                if (Limits.Substances.OfReading(name) is { Role: not "measure" } substance && ExactNumber.Read(reading.Text, 9, out var billionths) == ExactNumber.Fault.None)
                    yield return (substance, name.EndsWith("MgPerLitre", StringComparison.Ordinal) ? new Dose(billionths).Times(1, 1_000) : new Dose(billionths));
            foreach (var content in Contents ?? [])
                if (Limits.Substances.Find(content.Substance!) is { } other && Dose.ReadMilligramsPerLitre(content.MgPerLitre!.Value.Text, out var found) == ExactNumber.Fault.None) yield return (other, found);
        }
    }

    private void CheckContents(Deciding deciding)
    {
        for (var i = 0; i < (Contents?.Count ?? 0); i++)
        {
            var (content, path) = (Contents![i], $"contents[{i}]");
            if (string.IsNullOrWhiteSpace(content.Substance)) deciding.Refuse(RefusalCode.Missing, path + ".substance", "Name the substance.");
            else if (Limits.Substances.Find(content.Substance) is not { Role: not "practice" } substance) deciding.Refuse(RefusalCode.UnknownWord, path + ".substance", $"There is no substance “{Names.Shown(content.Substance)}”. The page of limits lists them.");
            else if (substance.Reading.Length > 0) deciding.Refuse(RefusalCode.UnknownWord, path + ".substance", $"{substance.Name} has a reading of its own: {substance.Reading}.");
            if (content.MgPerLitre is not { } figure) deciding.Refuse(RefusalCode.Missing, path + ".mgPerLitre", "Say how much was found, in mg/L; nil if none.");
            else if (Dose.ReadMilligramsPerLitre(figure.Text, out var dose) is var fault && fault != ExactNumber.Fault.None) deciding.Refuse(fault == ExactNumber.Fault.TooFine ? RefusalCode.TooFine : RefusalCode.TooLargeNumber, path + ".mgPerLitre", "Give it to at most six decimals of a mg/L.");
            else if (dose.NanogramsPerLitre < 0) deciding.Refuse(RefusalCode.NotPositive, path + ".mgPerLitre", "This reading can't be below nil.");
            else if (dose.NanogramsPerLitre > 2_000_000_000_000) deciding.Refuse(RefusalCode.TooLargeNumber, path + ".mgPerLitre", "That is more than a litre can hold. The unit is mg/L.");
        }
        if (Contents is { Count: > 1 } several && several.Select(content => content.Substance).Distinct().Count() < several.Count) deciding.Refuse(RefusalCode.DoesNotAddUp, "contents", "A substance stands there twice.");
    }

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with
    {
        Readings = notes.Readings.SetItems(Readings.Select(pair => KeyValuePair.Create(pair.Name, new NotedReading(pair.Reading.Text, deed.Entry, deed.Day)))),
        GravityBefore = Gravity is null ? notes.GravityBefore : notes.Readings.GetValueOrDefault("gravity"),
        Malolactic = Malolactic ?? notes.Malolactic,
    };
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
