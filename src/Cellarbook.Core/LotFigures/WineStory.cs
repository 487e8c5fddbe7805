using System.Collections.Immutable;
using Cellarbook.Core.Chemistry;
using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.LotFigures;

/// <summary>
/// What happened to the wine in one place, as far as it bears on its strength. Two accounts run beside each other: by gravities alone, and by
/// whatever strength was measured (or, where no gravity tells, stated).
/// </summary>
internal sealed class WineStory(double factor)
{
    private StrengthAccount byGravity = new(factor);
    private StrengthAccount byStrength = new(factor);
    private bool provisional, addedSince;
    private DateOnly? pitched;

    // Changes with everything but draws, so that two parts of one wine are known as the same.
    private object mark = new();

    /// <summary>Everything that bears on its strength, in book order.</summary>
    public ImmutableList<FigureReading> Sources { get; private set; } = [];

    /// <summary>Where in <see cref="Sources"/> the measured or stated strength stands.</summary>
    public int StrengthAt { get; private set; }

    /// <summary>Readings of gravity since something last went in.</summary>
    public ImmutableList<GravityRead> Gravities { get; private set; } = [];

    /// <summary>The latest reading; null when there is none of this wine.</summary>
    public GravityRead? LastGravity { get; private set; }

    /// <summary>What went in after the latest reading, in words.</summary>
    public Sentence? AddedAfterReading { get; private set; }

    /// <summary>Why there is no first gravity although one was read; or what to beware of with it.</summary>
    public Sentence? LateFirst { get; private set; }

    /// <summary>The estimate from gravities.</summary>
    public StrengthAccount ByGravity => byGravity;

    /// <summary>Measured or stated strength and what became of it.</summary>
    public StrengthAccount ByStrength => byStrength;

    /// <summary>Strength as far as known: measured or carried, else by gravities; NaN when neither.</summary>
    public double AbvNow => byStrength.RestsOnStrength && double.IsFinite(byStrength.AbvNow) ? byStrength.AbvNow : byGravity.AbvNow;

    /// <summary>The same wine in another place.</summary>
    public WineStory Copy()
    {
        var copy = (WineStory)MemberwiseClone();
        copy.byGravity = byGravity.Copy();
        copy.byStrength = byStrength.Copy();
        return copy;
    }

    /// <summary>True when both are the same wine, to which nothing happened since they were parted.</summary>
    public bool IsSameAs(WineStory other) => mark == other.mark;

    /// <summary>So much of the whole is left, or lies here now.</summary>
    public void Keep(double share)
    {
        if (share > 0) Take(new StrengthStep.Kept(share));
    }

    /// <summary>Something of known or unknown nature went in.</summary>
    public void Add(StrengthStep step, FigureReading source)
    {
        Note(source);
        Take(step);
        (addedSince, AddedAfterReading) = (true, source.What);
        Gravities = [];
    }

    /// <summary>Another wine or must went in: <paramref name="litres"/> of it; its stated strength is taken where nothing better is known.</summary>
    public void Meet(WineStory other, double litres, double? statedAbv, string what, FigureReading source)
    {
        double abv = other.AbvNow, gravity = double.IsFinite(other.byGravity.GravityNow) ? other.byGravity.GravityNow : other.byStrength.GravityNow;
        var (step, words) = other.byGravity.IsJuice && !other.byStrength.RestsOnStrength ? (new StrengthStep.JuiceAdded(litres, gravity), Sentence.Of($"at SG {Number(gravity, 4)}"))
            : double.IsFinite(abv) ? (new StrengthStep.WineAdded(litres, abv, double.IsFinite(gravity) ? gravity : null, null), Sentence.Of($"at {Number(abv, 2)} % vol"))
            : statedAbv is { } stated ? (new StrengthStep.WineAdded(litres, stated, double.IsFinite(gravity) ? gravity : null, null), Sentence.Of($"at {Typed(stated)} % vol as stated"))
            : ((StrengthStep)new StrengthStep.UnknownAdded($"{Typed(litres)} L of {what}, of unknown strength,"), Sentence.Of("of unknown strength"));
        Add(step, source with { What = $"{source.What}, {words}" });
        if (other.pitched is { } day) pitched ??= day;
        LastGravity = null;
    }

    /// <summary>Yeast went in.</summary>
    public void Pitch(DateOnly day) => pitched ??= day;

    /// <summary>The sugar of must as its paper says, until a hydrometer says better.</summary>
    public void BeginByPaper(double litres, double gravity, FigureReading source)
    {
        if (byGravity.HasBegun || byStrength.HasBegun || !double.IsFinite(gravity)) return;
        Begin(litres, gravity);
        provisional = true;
        Note(source);
    }

    /// <summary>A gravity was read.</summary>
    public void Read(GravityRead read, double litres, bool isMust)
    {
        const double leastOfMust = 1.020;
        Note(new(read.Entry, read.Day, read.How));
        if (!byGravity.HasBegun && !byStrength.RestsOnStrength)
        {
            if (isMust && read.Gravity >= leastOfMust && litres > 0)
            {
                Begin(litres, read.Gravity);
                if (pitched < read.Day) LateFirst = $"The first gravity was read after the yeast went in on {pitched:yyyy-MM-dd}; what fermented before it is not counted.";
            }
            else LateFirst ??= $"the first gravity in the book ({read.How}, entry {read.Entry}) was read when fermentation was well under way or over.";
        }
        else if (isMust && read.Gravity >= leastOfMust && IsFirstAnew(read.Gravity)) Begin(litres, read.Gravity);
        else
        {
            var step = new StrengthStep.GravityRead(read.Gravity);
            if (byGravity.IsRunning) byGravity.Take(step);
            if (byStrength.IsRunning) byStrength.Take(step);
        }
        (LastGravity, addedSince, provisional, AddedAfterReading) = (read, false, false, null);
        Gravities = Gravities.Add(read);
    }

    /// <summary>Residual sugar was measured.</summary>
    public void ReadSugar(double gramsPerLitre, FigureReading source)
    {
        Note(source);
        Take(new StrengthStep.ResidualSugarMeasured(gramsPerLitre));
    }

    /// <summary>The strength was measured: it holds from here on.</summary>
    public void Measure(double abv, double litres, FigureReading source) => Settle(abv, litres, false, source);

    /// <summary>A strength was stated. It counts where nothing else tells the strength.</summary>
    public void State(double abv, double litres, FigureReading source)
    {
        if (!double.IsFinite(AbvNow)) Settle(abv, litres, true, source);
    }

    private void Settle(double abv, double litres, bool stated, FigureReading source)
    {
        if (!(litres > 0)) return;
        bool known = LastGravity is not null && AddedAfterReading is null;
        byStrength = new StrengthAccount(factor);
        byStrength.Take(new StrengthStep.FirstWine(litres, abv, known ? LastGravity!.Gravity : null, stated));
        StrengthAt = Sources.Count;
        mark = new();
        Sources = Sources.Add(source);
    }

    /// <summary>Before anything ferments a better reading takes the place of the first one and of what was reckoned for an addition.</summary>
    private bool IsFirstAnew(double gravity) => (addedSince || provisional) && pitched is null && !byGravity.HasFermented && !byStrength.RestsOnStrength
        && !(gravity < byGravity.GravityNow - (provisional ? 0.010 : StrengthHistory.ReadingTolerance));

    private void Begin(double litres, double gravity)
    {
        byGravity = new StrengthAccount(factor);
        byGravity.Take(new StrengthStep.FirstGravity(litres, gravity));
        LateFirst = null;
    }

    private void Take(StrengthStep step)
    {
        if (byGravity.IsRunning) byGravity.Take(step);
        if (byStrength.IsRunning) byStrength.Take(step);
    }

    private void Note(FigureReading source)
    {
        mark = new();
        Sources = Sources.Add(source);
    }
}
