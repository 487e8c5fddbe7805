using Cellarbook.Core.Cautions;
using Cellarbook.Core.Facts;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Cautions;

/// <summary>The usual cautions stand where the hazard is: small on the form, loud when what is known of the wine calls for it.</summary>
public class CautionTests
{
    private static Check Wine => new Check().Vessel("V1", "30").Vessel("V2", "30")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""");

    private static string[] Loud(Check check) => [.. check.Last.Cautions.Where(heeded => heeded.IsLoud).Select(heeded => heeded.Caution.Code).Order(StringComparer.Ordinal)];

    private static string[] Small(Check check) => [.. check.Last.Cautions.Where(heeded => !heeded.IsLoud).Select(heeded => heeded.Caution.Code)];

    private static Check Read(Check check, string day, string gravity) => check.On(day).Does($$"""{"kind":"measure","lot":"L1","gravity":{{gravity}}}""");

    private const string Declare = """{"kind":"declareWine","lot":"L1","vessel":"V1","litres":22,"abv":12}""";
    private const string Bottle = """{"kind":"bottle","lot":"L1","fills":[{"bottling":"L1-75","bottles":20,"bottleMl":750}]}""";
    private const string Sorbate = """{"kind":"add","lot":"L1","items":[{"material":"potassium sorbate","grams":4}]}""";

    [Fact]
    public void Bottling_wine_that_nobody_read_warns_of_bursting_bottles_and_asks_why_it_is_safe()
    {
        var check = Wine.On("2026-04-01").Does(Declare).On("2026-05-01").Does(Bottle);
        Assert.Equal(["bursting-bottles"], Loud(check));
        Assert.Contains(check.Last.Flags, flag => flag.Code == "reason_asked");
        Assert.Contains("glass-line", Small(check));
    }

    [Fact]
    public void A_reason_that_is_given_is_not_asked_for_again_but_the_caution_stays()
    {
        var check = Wine.On("2026-04-01").Does(Declare).On("2026-05-01").Does(Bottle.Replace("\"fills\"", "\"reason\":\"dry since March, laboratory report\",\"fills\"", StringComparison.Ordinal));
        Assert.Equal(["bursting-bottles"], Loud(check));
        Assert.DoesNotContain(check.Last.Flags, flag => flag.Code == "reason_asked");
    }

    [Fact]
    public void Wine_read_dry_and_steady_is_bottled_without_a_loud_word()
    {
        var check = Wine;
        Read(check, "2026-03-20", "0.995");
        Read(check, "2026-03-25", "0.995").On("2026-04-01").Does(Declare).On("2026-05-01").Does(Bottle);
        Assert.Empty(Loud(check));
    }

    [Theory]
    [InlineData("1.004", "0.998")] // dry, but it fell since the last reading
    [InlineData("1.010", "1.010")] // steady, but sugar is left
    public void Falling_or_sweet_wine_warns_of_bursting_bottles(string before, string last)
    {
        var check = Wine;
        Read(check, "2026-03-20", before);
        Read(check, "2026-03-25", last).On("2026-03-26").Does(Declare).On("2026-03-27").Does(Bottle);
        Assert.Equal(["bursting-bottles"], Loud(check));
    }

    [Fact]
    public void Sugar_read_at_the_bar_that_makes_pressure_is_loud_and_just_below_it_is_not()
    {
        foreach (var (sugar, loud) in new[] { ("4.0", true), ("3.9", false) })
        {
            var check = Wine;
            Read(check, "2026-03-25", "0.995").On("2026-04-01").Does(Declare).Does($$"""{"kind":"measure","lot":"L1","sugarGramsPerLitre":{{sugar}}}""").Does(Bottle);
            Assert.Equal(loud, Loud(check).Contains("bursting-bottles"));
        }
    }

    [Fact]
    public void Sorbate_into_a_running_ferment_is_loud()
    {
        var check = Wine;
        Read(check, "2026-03-05", "1.060").Does(Sorbate);
        Assert.Contains("sorbate-running", Loud(check));
    }

    [Fact]
    public void Sorbate_where_malolactic_bacteria_live_is_loud_and_where_they_are_unwanted_is_not()
    {
        var check = Wine.On("2026-04-01").Does(Declare).Does("""{"kind":"measure","lot":"L1","gravity":0.995,"freeSo2MgPerLitre":30}""").Does(Sorbate);
        Assert.Empty(Loud(check));
        check.Does("""{"kind":"pitch","lot":"L1","cultures":[{"name":"Quiet Oeni","what":"malolactic"}]}""").Does(Sorbate);
        Assert.Equal(["sorbate-malolactic"], Loud(check));
    }

    [Fact]
    public void Sorbate_without_a_free_sulphur_reading_is_loud()
    {
        var check = Wine;
        Read(check, "2026-03-25", "0.995").On("2026-04-01").Does(Declare).Does(Sorbate);
        Assert.Equal(["sorbate-alone"], Loud(check));
    }

    [Fact]
    public void Sulphite_beside_acid_in_one_addition_is_loud_and_alone_is_small()
    {
        var check = Wine.Does("""{"kind":"add","lot":"L1","items":[{"material":"potassium metabisulphite","grams":1.5}]}""");
        Assert.DoesNotContain("sulphite-acid", Loud(check));
        Assert.Contains("sulphite-fumes", Small(check));
        check.Does("""{"kind":"add","lot":"L1","items":[{"material":"potassium metabisulphite","grams":1.5},{"material":"tartaric acid","grams":20}]}""");
        Assert.Contains("sulphite-acid", Loud(check));
    }

    [Fact]
    public void Cleaning_with_bleach_warns_of_gas()
    {
        var check = new Check().Vessel("V9", "30").Does("""{"kind":"observe","vessel":"V9","what":"cleaned","finding":"soaked with dilute bleach"}""");
        Assert.Equal(["bleach-gas", "chlorine-taint"], Loud(check));
        Assert.Contains("hot-water", Small(check));
    }

    [Theory] // By its code, its name or a synonym: the catalogue knows what it is.
    [InlineData("potassium-sorbate")]
    [InlineData("E 202")]
    public void A_material_is_known_by_its_code(string material)
    {
        var check = Wine;
        Read(check, "2026-03-05", "1.060").Does($$"""{"kind":"add","lot":"L1","items":[{"material":"{{material}}","grams":4}]}""");
        Assert.Contains("sorbate-running", Loud(check));
    }

    [Fact]
    public void Sweet_wine_kept_by_sorbate_and_sulphite_is_bottled_without_a_loud_word_and_with_one_of_them_alone_it_is_loud()
    {
        foreach (var (items, loud) in new[] { ("""{"material":"potassium-sorbate","grams":4},{"material":"kmbs","grams":2}""", false), ("""{"material":"potassium-sorbate","grams":4}""", true) })
        {
            var check = Wine;
            Read(check, "2026-03-20", "1.010");
            Read(check, "2026-03-25", "1.010").On("2026-03-26").Does(Declare).Does($$"""{"kind":"add","lot":"L1","items":[{{items}}]}""").On("2026-03-27").Does(Bottle);
            Assert.Equal(loud, Loud(check).Contains("bursting-bottles"));
        }
    }

    [Fact]
    public void A_large_ferment_warns_of_carbon_dioxide_loudly_and_a_bucket_in_small()
    {
        var small = new Check().Vessel("V1", "30").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""").Does("""{"kind":"pitch","lot":"L1","cultures":[{"name":"Quiet Yeast","what":"yeast"}]}""");
        Assert.Contains("co2-room", Small(small));
        var large = new Check().Vessel("T1", "500").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"T1","litres":400}""").Does("""{"kind":"pitch","lot":"L1","cultures":[{"name":"Quiet Yeast","what":"yeast"}]}""");
        Assert.Contains("co2-room", Loud(large));
    }

    [Fact]
    public void Selling_and_distilling_from_a_household_are_loud()
    {
        var check = Wine.On("2026-04-01").Does(Declare).Does("""{"kind":"remove","as":"sold","lot":"L1","litres":1}""");
        Assert.Contains("selling", Loud(check));
        check.Does("""{"kind":"remove","as":"distilling","lot":"L1","litres":1}""");
        Assert.Contains("distilling", Loud(check));
        check.Does("""{"kind":"premises","name":"Hollow Lane","regimes":["uk"],"timeZone":"Europe/London","owner":"M. Thorn"}""").Does("""{"kind":"remove","as":"sold","lot":"L1","litres":1}""");
        Assert.DoesNotContain("selling", Loud(check));
    }

    [Fact]
    public void A_correction_that_writes_a_bottling_brings_the_cautions_of_what_it_writes()
    {
        var check = Wine.On("2026-04-01").Does(Declare).On("2026-05-01").Does(Bottle);
        check.Does($$"""{"kind":"correct","takesBack":{{check.Number}},"reason":"miscounted","write":{{Bottle.Replace("20", "21", StringComparison.Ordinal).Replace("\"lot\"", "\"day\":\"2026-05-01\",\"lot\"", StringComparison.Ordinal)}}}""");
        Assert.Contains("bursting-bottles", Loud(check));
    }

    [Fact]
    public void Every_row_says_what_the_program_understands()
    {
        Assert.Equal(CautionSheet.All.Count, CautionSheet.All.Select(caution => caution.Code).Distinct().Count());
        foreach (var caution in CautionSheet.All)
        {
            Assert.NotEmpty(caution.Kinds);
            Assert.All(caution.Kinds, kind => Assert.Contains(kind, OperationJson.Kinds.Keys));
            Assert.All(caution.LoudWhen, when => Assert.True(when is "always" or "material" || when.StartsWith("with:", StringComparison.Ordinal) || Circumstances.Words.Contains(when), $"{caution.Code}: {when}"));
            Assert.True(caution.Facts.Count > 0 || caution.Source.ToString() == "common practice, no source", $"{caution.Code} has no source.");
            Assert.All(caution.Facts, fact => Assert.False(string.IsNullOrWhiteSpace(fact.Source.ToString())));
        }
        Assert.All(Seed.Rows("seed/cautions/caution_facts.csv"), row => Assert.Contains(CautionSheet.All, caution => caution.Code == row["caution"]));
    }

    [Fact]
    public void Where_work_can_hurt_the_form_shows_it_before_anything_is_typed()
    {
        foreach (var kind in new[] { "add", "pitch", "press", "crush", "bottle", "sweeten", "remove", "observe", "makeSparkling", "fortify" })
            Assert.NotEmpty(CautionSheet.Before(kind, null, null, isHousehold: true));
    }
}
