using System.Globalization;
using Microsoft.AspNetCore.Html;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>
/// How figures are written for a reader: volumes in the preferred unit, the preferred decimal mark, days in words. What is stored stays exact;
/// a volume in litres is shown to the microlitre, one in another unit to three decimals, half up.
/// </summary>
public sealed class Show(PreferencesFile file, Texts.Texts texts)
{
    /// <summary>Words in the preferred language.</summary>
    public Texts.Texts T => texts;

    // As wide as a figure and as a full stop, in any font with figures of one width.
    private const char DigitSpace = '\u2007';
    private const string PointSpace = "\u2008";

    private static readonly Sentence[] Months = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
    private static readonly Sentence[] ShortMonths = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    /// <summary>The preferences that hold now.</summary>
    public Preferences Preferences => file.Now;

    /// <summary>The decimal mark: "." or ",".</summary>
    public string DecimalMark => Preferences.DecimalComma ? "," : ".";

    /// <summary>Short name of the volume unit: "L", "hL", "US gal", "imp gal".</summary>
    public string VolumeUnit => Preferences.Volume switch
    {
        Shared.VolumeUnit.Hectolitre => "hL",
        Shared.VolumeUnit.UsGallon => "US gal",
        Shared.VolumeUnit.ImperialGallon => "imp gal",
        _ => "L",
    };

    /// <summary>Short name of the temperature scale.</summary>
    public string TemperatureUnit => Preferences.Temperature == TemperatureScale.Fahrenheit ? "°F" : "°C";

    /// <summary>"22.4 L": without needless zeros, with its unit.</summary>
    public string Volume(Volume volume) => Figure(volume) + "\u00A0" + VolumeUnit;

    /// <summary>"22.4": without needless zeros or unit.</summary>
    public string Figure(Volume volume) => Mark(Grouped(InUnit(volume)));

    /// <summary>
    /// "22.4" for a column of figures under one unit: no more decimals than there are, and blanks as wide as the digits of three, so that the
    /// decimal marks stand under each other.
    /// </summary>
    public IHtmlContent Cell(Volume volume) => new HtmlString(Signed(volume) + Blanks(volume));

    /// <summary>"−22.4": a figure with a true minus.</summary>
    public string Signed(Volume volume) => Figure(volume).Replace('-', '−');

    /// <summary>"−12": a count with a true minus.</summary>
    public string Signed(long number) => Number(number).Replace('-', '−');

    /// <summary>The blanks alone, for a figure that is a link: a link ends where its figure does. Where a table folds they are left out.</summary>
    public IHtmlContent Blanks(Volume volume)
    {
        var figure = InUnit(volume);
        var decimals = figure.Contains('.') ? figure.Length - figure.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
        return new HtmlString($"<span class=\"pad\">{(decimals == 0 ? PointSpace : "")}{new string(DigitSpace, Math.Max(0, 3 - decimals))}</span>");
    }

    /// <summary>"22.4" without grouping, as it may stand in an input field.</summary>
    public string Input(Volume volume) => Mark(InUnit(volume));

    /// <summary>A figure as read, with the preferred decimal mark.</summary>
    public string Reading(string text) => Mark(text);

    /// <summary>A temperature read in °C, in the preferred scale; converted ones to one decimal.</summary>
    public string Temperature(string celsius)
    {
        if (Preferences.Temperature == TemperatureScale.Celsius) return Mark(celsius) + "\u00A0°C";
        var fahrenheit = double.Parse(celsius, CultureInfo.InvariantCulture) * 1.8 + 32;
        return Mark(fahrenheit.ToString("0.#", CultureInfo.InvariantCulture)) + "\u00A0°F";
    }

    /// <summary>"12.5 % vol".</summary>
    public string Strength(Strength strength) => Mark(strength.Percent) + "\u00A0%\u00A0vol";

    /// <summary>"12.5 % vol", or "strength not stated".</summary>
    public string Strength(Strength? strength) => strength is { } stated ? Strength(stated) : texts[Words.StrengthNotStated];

    /// <summary>"29 bottles", "1 bottle".</summary>
    public string Bottles(BottleCount count) => count.Bottles == 1 ? texts["1\u00A0bottle"] : texts[$"{Number(count.Bottles)}\u00A0bottles"];

    /// <summary>An amount of money with so many decimals, rounded half away from nil; what is stored stays exact.</summary>
    public string Money(Money money, int decimals)
    {
        var unit = (long)Math.Pow(10, 6 - decimals);
        var rounded = (Math.Abs(money.Millionths) + unit / 2) / unit;
        return (money.Millionths < 0 && rounded > 0 ? "−" : "") + Mark(Grouped(ExactNumber.WriteFixed(rounded, decimals)));
    }

    /// <summary>A whole number, grouped from 10 000 on.</summary>
    public string Number(long number) => Grouped(number.ToString(CultureInfo.InvariantCulture));

    /// <summary>"750 mL", or "1.5 L" from a litre up.</summary>
    public string BottleSize(Volume size) => size.Microlitres < 1_000_000 ? Mark(ExactNumber.Write(size.Microlitres, 3)) + "\u00A0mL" : Mark(size.Litres) + "\u00A0L";

    /// <summary>"640 kg".</summary>
    public string Weight(FruitWeight weight) => Mark(Grouped(weight.Kilograms)) + "\u00A0kg";

    /// <summary>"12.5 g", "30 mL" or "4 pieces" of a material.</summary>
    public string Material(MaterialAmount amount, MaterialUnit unit) => unit switch
    {
        MaterialUnit.Milligrams when amount.Units >= 10_000_000 => Mark(Grouped(ExactNumber.Write(amount.Units, 6))) + "\u00A0kg",
        MaterialUnit.Milligrams => Mark(Grouped(ExactNumber.Write(amount.Units, 3))) + "\u00A0g",
        MaterialUnit.Microlitres when amount.Units >= 10_000_000 => Mark(Grouped(ExactNumber.Write(amount.Units, 6))) + "\u00A0L",
        MaterialUnit.Microlitres => Mark(Grouped(ExactNumber.Write(amount.Units, 3))) + "\u00A0mL",
        _ => amount.Units == 1 ? texts["1\u00A0piece"] : texts[$"{Grouped(ExactNumber.Write(amount.Units, 0))}\u00A0pieces"],
    };

    /// <summary>"4.60": an amount of money with two decimals at least.</summary>
    public string Money(Money money)
    {
        var text = money.Text;
        var decimals = text.Contains('.', StringComparison.Ordinal) ? text.Length - 1 - text.IndexOf('.', StringComparison.Ordinal) : 0;
        return Mark(Grouped(decimals >= 2 ? text : ExactNumber.WriteFixed(money.Millionths / 10_000, 2)));
    }

    /// <summary>An amount as the register writes it, "12.5 g" or "2 pieces", in the reader's words.</summary>
    public string Amount(string written) =>
        written == "1 piece" ? texts["1\u00A0piece"] : written.EndsWith(" pieces", StringComparison.Ordinal) ? texts[$"{Mark(written[..^7])}\u00A0pieces"] : Mark(written);

    /// <summary>A share of a material, to the nearest whole unit; less than one says so.</summary>
    public string Fine(FineAmount amount, MaterialUnit unit)
    {
        var nearest = amount.Nearest;
        return nearest.IsNil && !amount.IsNil ? (amount.Millionths < 0 ? "> −" : "< ") + Material(new(1), unit) : Material(nearest, unit);
    }

    /// <summary>"50 g".</summary>
    public string Mass(Mass mass) => Mark(Grouped(mass.Grams)) + "\u00A0g";

    /// <summary>"62.5 %" from parts of 10⁻¹², to one decimal half up; less than 0.1 % says so.</summary>
    public string Share(long parts)
    {
        const long tenth = OriginMix.Whole / 1000;
        if (parts > 0 && parts < tenth / 2) return texts[$"under\u00A0{Mark("0.1")}\u00A0%"];
        return Mark(ExactNumber.Write((parts + tenth / 2) / tenth, 1)) + "\u00A0%";
    }

    /// <summary>"1 March 2026": can be read one way only.</summary>
    public string Day(DateOnly day) => texts[$"{day.Day}\u00A0{Months[day.Month - 1]}\u00A0{day.Year:0000}"];

    /// <summary>"1 Mar 2026", for columns.</summary>
    public string ShortDay(DateOnly day) => texts[$"{day.Day}\u00A0{ShortMonths[day.Month - 1]}\u00A0{day.Year:0000}"];

    /// <summary>"March 2026".</summary>
    public string Month(DateOnly day) => texts[$"{Months[day.Month - 1]}\u00A0{day.Year:0000}"];

    /// <summary>"March", for a span that names the year once.</summary>
    public string MonthAlone(DateOnly day) => texts[Months[day.Month - 1]];

    /// <summary>"2026-03-01", for date fields and links.</summary>
    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>"1 March 2026, 14:05" in the book's time zone.</summary>
    public string Moment(DateTimeOffset moment, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTime(moment, zone);
        return $"{Day(DateOnly.FromDateTime(local.DateTime))}, {local.Hour:00}:{local.Minute:00}";
    }

    /// <summary>"1 day", "6 days".</summary>
    public string Days(int days) => days == 1 ? texts["1\u00A0day"] : texts[$"{days}\u00A0days"];

    /// <summary>A decimal number in invariant form, with the preferred mark.</summary>
    public string Mark(string invariant) => Preferences.DecimalComma ? invariant.Replace('.', ',') : invariant;

    private string InUnit(Volume volume) => Preferences.Volume switch
    {
        Shared.VolumeUnit.Hectolitre => ExactNumber.Write(volume.Microlitres, 8),
        Shared.VolumeUnit.UsGallon => ExactNumber.Write(Thousandths(volume, 3_785_411_784, 1_000_000), 3),
        Shared.VolumeUnit.ImperialGallon => ExactNumber.Write(Thousandths(volume, 4_546_090, 1_000), 3),
        _ => volume.Litres,
    };

    /// <summary>Thousandths of a unit in a volume, nearest, half away from nil: µL × scale ÷ size.</summary>
    private static long Thousandths(Volume volume, long size, long scale)
    {
        var twice = (Int128)volume.Microlitres * scale * 2;
        return (long)((twice < 0 ? twice - size : twice + size) / ((Int128)size * 2));
    }

    /// <summary>Groups of three before the point from five figures on, by a narrow no-break space, which no reader takes for a decimal mark.</summary>
    private static string Grouped(string number)
    {
        var point = number.IndexOf('.', StringComparison.Ordinal);
        var end = point < 0 ? number.Length : point;
        var start = number[0] == '-' ? 1 : 0;
        if (end - start < 5) return number;
        var text = new System.Text.StringBuilder(number);
        for (var at = end - 3; at > start; at -= 3) text.Insert(at, '\u202F');
        return text.ToString();
    }
}
