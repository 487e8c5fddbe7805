using System.Numerics;
using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Statements;

/// <summary>What a line of the form is.</summary>
public enum LineSide
{
    /// <summary>On hand, first or last day.</summary>
    Stock,
    /// <summary>Came in.</summary>
    In,
    /// <summary>Went out.</summary>
    Out,
    /// <summary>A total of one half.</summary>
    Total,
}

/// <summary>A line of the form.</summary>
/// <param name="Line">Its code, such as A13.</param>
/// <param name="Label">Our short words for it.</param>
/// <param name="Side">What it is.</param>
/// <param name="MayMove">Whether whole gallons may be moved by one here so that the column balances: always, only last, or never.</param>
public sealed record FormLine(string Line, Sentence Label, LineSide Side, Nudging MayMove);

/// <summary>When a line may be moved by a gallon.</summary>
public enum Nudging
{
    /// <summary>With the others.</summary>
    Any,
    /// <summary>Only if nothing else can: it ties to a tax return.</summary>
    Last,
    /// <summary>Not at all: it must agree with a line elsewhere.</summary>
    Never,
}

/// <summary>A section of the form: its lines in order; first stock line is the opening, last the closing.</summary>
public sealed record FormSection(Section Section, string Name, IReadOnlyList<FormLine> Lines)
{
    /// <summary>The opening line.</summary>
    public FormLine Opening => Lines.First(line => line.Side == LineSide.Stock);

    /// <summary>The closing line.</summary>
    public FormLine Closing => Lines.Last(line => line.Side == LineSide.Stock);

    /// <summary>The total of the upper half.</summary>
    public FormLine UpperTotal => Lines.First(line => line.Side == LineSide.Total);

    /// <summary>The total of the lower half.</summary>
    public FormLine LowerTotal => Lines.Last(line => line.Side == LineSide.Total);
}

/// <summary>The US form as data: seed/regimes/us-5120-17.json.</summary>
public sealed class UsForm
{
    private UsForm(JsonElement root)
    {
        Name = root.GetProperty("name").GetString()!;
        Source = root.GetProperty("source").GetString()!;
        var gallons = root.GetProperty("gallonsPerLitre").GetString()!;
        GallonsPerLitreE5 = (long)(decimal.Parse(gallons, System.Globalization.CultureInfo.InvariantCulture) * 100_000);
        Sections = [.. root.GetProperty("sections").EnumerateArray().Select(section => new FormSection(
            Enum.Parse<Section>(section.GetProperty("section").GetString()!, ignoreCase: true), section.GetProperty("name").GetString()!,
            [.. section.GetProperty("lines").EnumerateArray().Select(line => new FormLine(
                line.GetProperty("line").GetString()!, Sentence.Seed(line.GetProperty("label").GetString()!),
                Enum.Parse<LineSide>(line.GetProperty("side").GetString()!, ignoreCase: true),
                line.TryGetProperty("nudged", out var nudged) ? Enum.Parse<Nudging>(nudged.GetString()!, ignoreCase: true) : Nudging.Any))]))];
        var loss = root.GetProperty("lossCheck");
        LossStockPercent = loss.GetProperty("stockPercent").GetInt32();
        LossProducedPercent = loss.GetProperty("producedPercent").GetInt32();
        LossClasses = [.. loss.GetProperty("classes").EnumerateArray().Select(element => element.GetString()!)];
        LossSource = loss.GetProperty("source").GetString()!;
    }

    /// <summary>The form in force here.</summary>
    public static UsForm Current { get; } = new(JsonDocument.Parse(Seed.Text("seed/regimes/us-5120-17.json")).RootElement);

    /// <summary>What it is called.</summary>
    public string Name { get; }

    /// <summary>Where it comes from.</summary>
    public string Source { get; }

    /// <summary>Bulk and bottled.</summary>
    public IReadOnlyList<FormSection> Sections { get; }

    /// <summary>Allowance on opening and received, per cent.</summary>
    public int LossStockPercent { get; }

    /// <summary>Allowance on wine made, per cent.</summary>
    public int LossProducedPercent { get; }

    /// <summary>Classes the allowance is taken over.</summary>
    public IReadOnlyList<string> LossClasses { get; }

    /// <summary>Source of the allowance.</summary>
    public string LossSource { get; }

    /// <summary>Hundred-thousandths of a gallon in a litre.</summary>
    internal long GallonsPerLitreE5 { get; }

    /// <summary>A volume in 10⁻¹¹ gallons, exactly.</summary>
    internal Int128 Exact(Quantities.Volume volume) => (Int128)volume.Microlitres * GallonsPerLitreE5;

    /// <summary>A volume in gallons with five decimals, half away from nil.</summary>
    public string Gallons(Quantities.Volume volume) => Quantities.ExactNumber.WriteFixed((long)HalfUp(Exact(volume), 1_000_000), 5);

    /// <summary>A volume in whole gallons by itself, half away from nil.</summary>
    public long WholeGallons(Quantities.Volume volume) => (long)HalfUp(Exact(volume), One);

    internal static readonly Int128 One = 100_000_000_000;

    private static Int128 HalfUp(Int128 value, Int128 unit) => value < 0 ? -((-value * 2 + unit) / (2 * unit)) : (value * 2 + unit) / (2 * unit);
}
