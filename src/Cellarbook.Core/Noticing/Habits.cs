using System.Text.Json;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Noticing;

/// <summary>A fact that decides whether something stands out, with where it comes from.</summary>
public sealed record Habit(string Name, double Value, Sentence Unit, Sentence Means, Sentence Source);

/// <summary>Habits of the trade that say when something stands out: seed/screens/stands-out.json.</summary>
public sealed class Habits
{
    private Habits(IReadOnlyList<Habit> all)
    {
        All = all;
        SteadyDays = Whole("steadyDays");
        SteadyWithin = Find("steadyWithin");
        DryAt = Find("dryAt");
        ReadEveryDays = Whole("readEveryDays");
        UndeclaredDays = Whole("undeclaredDays");
        UntouchedDays = Whole("untouchedDays");
        HeadspacePercent = Whole("headspacePercent");
        FoamRoomPercent = Whole("foamRoomPercent");
        SugarLeftAt = Find("sugarLeftAt");
        MuchMustLitres = Whole("muchMustLitres");
        RestockDays = Whole("restockDays");
    }

    /// <summary>Those of the seed file.</summary>
    public static Habits Usual { get; } = Load();

    /// <summary>All of them, for a page that shows what it goes by.</summary>
    public IReadOnlyList<Habit> All { get; }

    /// <summary>Days over which a gravity read the same stands still.</summary>
    public int SteadyDays { get; }

    /// <summary>Specific gravity by which readings may differ and count as the same.</summary>
    public double SteadyWithin { get; }

    /// <summary>Specific gravity above which sugar is likely left.</summary>
    public double DryAt { get; }

    /// <summary>Days within which a ferment is read again.</summary>
    public int ReadEveryDays { get; }

    /// <summary>Days after which still, dry must ought to have been declared.</summary>
    public int UndeclaredDays { get; }

    /// <summary>Days within which wine in a vessel is looked at.</summary>
    public int UntouchedDays { get; }

    /// <summary>Empty room above wine, per cent of the capacity.</summary>
    public int HeadspacePercent { get; }

    /// <summary>Room a ferment wants for its foam, per cent of the capacity.</summary>
    public int FoamRoomPercent { get; }

    /// <summary>Sugar, g/L, from which a closed bottle can build up pressure.</summary>
    public double SugarLeftAt { get; }

    /// <summary>Must, L, whose ferment can fill a room with a dangerous share of carbon dioxide.</summary>
    public int MuchMustLitres { get; }

    /// <summary>Days after whose last use a material isn't missed any more.</summary>
    public int RestockDays { get; }

    private int Whole(string name) => (int)Find(name);

    private double Find(string name) => All.Single(habit => habit.Name == name).Value;

    private static Habits Load()
    {
        using var document = JsonDocument.Parse(Seed.Text("seed/screens/stands-out.json"));
        return new([.. document.RootElement.GetProperty("facts").EnumerateArray().Select(fact => new Habit(
            fact.GetProperty("name").GetString()!, fact.GetProperty("value").GetDouble(), Sentence.Seed(fact.GetProperty("unit").GetString()!), Sentence.Seed(fact.GetProperty("means").GetString()!), Sentence.Seed(fact.GetProperty("source").GetString()!)))]);
    }
}
