using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Fortify, sweeten, ameliorate, blend, make sparkling: process in, process out, contraction shown.</summary>
public class ProcessTests
{
    private static Check Cellar() => new Check().Vessel("V1", "100").Vessel("V2", "100").Vessel("V3", "100")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":50,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"V2","litres":40,"abv":17}""");

    [Fact]
    public void Fortified_wine_is_in_a_new_class_and_the_contraction_is_shown() => Cellar()
        .Does("""{"kind":"receive","what":"spirit","litres":10,"abv":96}""").Posted("SPIRIT_RECEIVED EXT:SUPPLIER > MAT:SPIRIT 10 L")
        .Does("""{"kind":"fortify","sources":[{"lot":"L1","litres":40}],"spiritLitres":4,"spiritAbv":96,"targets":[{"lot":"L1F","vessel":"V3","litres":43.8,"abv":19.6}]}""")
        .Posted("FORTIFY_USED BULK:L1:V1 > PROC 40 L", "FORTIFY_SPIRIT MAT:SPIRIT > PROC 4 L", "FORTIFY_MADE PROC > BULK:L1F:V3 43.8 L", "PROCESS_CONTRACTION PROC > LOSS:CONTRACTION 0.2 L")
        .Holds("L1", "V1", "10").Stands("L1F", "V3", "19.6")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "B21", "FORTIFY_MADE", Direction.In, "43.8");

    [Fact]
    public void More_measured_out_than_put_in_is_contraction_the_other_way() => Cellar()
        .Does("""{"kind":"sweeten","sources":[{"lot":"L1","litres":50}],"sweetenerLitres":1,"targets":[{"litres":51.1,"abv":11.8}]}""").Flagged("more_than_put_in", "reason_asked")
        .Posted("SWEETEN_USED BULK:L1:V1 > PROC 50 L", "SWEETEN_SUGAR MAT:SWEETENER > PROC 1 L", "SWEETEN_MADE PROC > BULK:L1:V1 51.1 L", "PROCESS_CONTRACTION LOSS:CONTRACTION > PROC 0.1 L")
        .Holds("L1", "V1", "51.1");

    [Fact]
    public void Own_must_may_sweeten() => Cellar()
        .Does("""{"kind":"receive","what":"juice","lot":"J1","vessel":"V3","litres":5}""")
        .Does("""{"kind":"sweeten","sources":[{"lot":"L1","litres":50}],"must":{"lot":"J1","litres":2},"targets":[{"litres":52,"abv":11.5}]}""")
        .Posted("SWEETEN_USED BULK:L1:V1 > PROC 50 L", "SWEETEN_MUST MUST:J1:V3 > PROC 2 L", "SWEETEN_MADE PROC > BULK:L1:V1 52 L").Holds("J1", "V3", "3");

    [Fact]
    public void Water_ameliorates() => Cellar()
        .Does("""{"kind":"ameliorate","sources":[{"lot":"L1"}],"waterLitres":5,"targets":[{"litres":55,"abv":10.9}]}""").Holds("L1", "V1", "55").Stands("L1", "V1", "10.9");

    [Fact]
    public void A_blend_across_classes_uses_every_part() => Cellar()
        .Does("""{"kind":"blend","sources":[{"lot":"L1"},{"lot":"L2"}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":90,"abv":14.2}]}""")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "BLEND_USED", Direction.Out, "50").States("2026-03-01", "2026-03-31", Section.Bulk, "B21", "BLEND_USED", Direction.Out, "40")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "BLEND_MADE", Direction.In, "90");

    [Fact]
    public void What_is_made_sparkling_is_sparkling_unless_said_otherwise() => Cellar()
        .Does("""{"kind":"makeSparkling","sources":[{"lot":"L1","litres":20}],"dosageLitres":0.5,"targets":[{"lot":"S1","vessel":"V3","litres":20.4,"abv":12.9}]}""")
        .Posted("SPARKLE_USED BULK:L1:V1 > PROC 20 L", "SPARKLE_DOSAGE MAT:SWEETENER > PROC 0.5 L", "SPARKLE_MADE PROC > BULK:S1:V3 20.4 L", "PROCESS_CONTRACTION PROC > LOSS:CONTRACTION 0.1 L")
        .Stands("S1", "V3", "12.9", ProductKind.Sparkling)
        .Does("""{"kind":"makeSparkling","sources":[{"lot":"L1","litres":20}],"product":"carbonated","targets":[{"lot":"L1C","litres":20,"abv":12}]}""").Stands("L1C", "unplaced", "12", ProductKind.Carbonated)
        .States("2026-03-01", "2026-03-31", Section.Bulk, "E_SPKL", "", Direction.Closing, "20.4").States("2026-03-01", "2026-03-31", Section.Bulk, "D_CARB", "", Direction.Closing, "20");

    [Fact]
    public void Must_goes_into_no_process_and_nothing_comes_of_nothing() => Cellar()
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"V3","litres":5}""")
        .Refuses(RefusalCode.MustIntoWine, """{"kind":"fortify","sources":[{"lot":"M1"}],"spiritLitres":1,"targets":[{"litres":6}]}""", "sources[0]")
        .Refuses(RefusalCode.Missing, """{"kind":"fortify","sources":[{"lot":"L1"}],"targets":[{"litres":6}]}""", "spiritLitres")
        .Refuses(RefusalCode.Missing, """{"kind":"blend","targets":[{"litres":6}]}""", "sources")
        .Refuses(RefusalCode.Missing, """{"kind":"blend","sources":[{"lot":"L1"}]}""", "targets")
        .Refuses(RefusalCode.WrongAccount, """{"kind":"sweeten","sources":[{"lot":"L1"}],"must":{"lot":"L2"},"targets":[{"litres":90}]}""", "must")
        .Refuses(RefusalCode.NotPositive, """{"kind":"makeSparkling","sources":[{"lot":"L1"}],"dosageLitres":-1,"targets":[{"litres":49}]}""", "dosageLitres");

    [Fact]
    public void A_result_of_unstated_strength_is_the_pure_alcohol_over_what_was_measured_out() => Cellar()
        .Does("""{"kind":"blend","sources":[{"lot":"L1","litres":30},{"lot":"L2","litres":20}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":50}]}""").Flagged("strength_by_volume").Stands("CUVEE", "V3", "14");

    [Fact]
    public void Contraction_is_no_wine_whatever_the_order_of_the_rows() => new Check().Vessel("V1", "100").Vessel("V2", "100")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":50,"abv":12}""")
        .Imports("event_id,date,category,lot_from,vessel_from,lot_to,vessel_to,volume_ml\nE1,2026-03-02,BLEND_USED,L1,V1,,,20000\nE1,2026-03-02,PROCESS_CONTRACTION,,,E1,,100\nE1,2026-03-02,BLEND_MADE,,,L2,V2,20100\n")
        // 2.4 L of pure alcohol in 20.1 L: 11.940… % vol.
        .Holds("L2", "V2", "20.1").Stands("L2", "V2", "11.94");

    [Theory] // Alcohol is conserved and a contraction takes volume only, so the book's rule and the mass balance (OIML R 22) tell one story.
    [InlineData("40", "12", "4", "96")]
    [InlineData("30", "11.5", "9", "80")]
    [InlineData("45", "14.2", "0.5", "95.6")]
    public void A_fortified_wine_that_nobody_measured_stands_where_the_mass_balance_puts_it(string litres, string abv, string spirit, string spiritAbv)
    {
        var check = new Check().Vessel("V1", "60").Vessel("V3", "60")
            .Does($$"""{"kind":"open","stocks":[{"what":"wine","lot":"L1","vessel":"V1","litres":{{litres}},"abv":{{abv}}}]}""")
            .Does($$"""{"kind":"fortify","sources":[{"lot":"L1"}],"spiritLitres":{{spirit}},"spiritAbv":{{spiritAbv}},"targets":[{"lot":"L1F","vessel":"V3"}]}""");
        Assert.Contains(check.Last.Flags, flag => flag.Code == "assumed" && flag.Sentence.ToString().Contains("not measured", StringComparison.Ordinal));
        var expected = Blending.ByMass(Number(litres), Number(abv), Number(spirit), Number(spiritAbv));
        var place = check.Book.Now.PlacesOfLot("L1F").Single();
        Assert.Equal(expected.Litres, place.Volume.Microlitres / 1e6, 0.0005);
        // Half a hundredth of the rounding, and what half a millilitre makes of it.
        Assert.Equal(expected.Abv, place.Standing.Strength!.Value.Hundredths / 100.0, 0.006);
        Assert.True(place.Volume.Microlitres / 1e6 < Number(litres) + Number(spirit));

        static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact] // What two wines lose by contraction when they meet is far below what the book can tell: 0.01 % vol.
    public void Where_wine_meets_wine_adding_volumes_and_the_mass_balance_agree_to_a_hundredth()
    {
        for (var first = 8.0; first <= 16; first += 1)
            for (var second = first; second <= 16; second += 1)
            {
                var byMass = Blending.ByMass(50, first, 50, second);
                Assert.Equal(byMass.Abv, (first + second) / 2, 0.01);
            }
    }

    [Fact]
    public void A_strength_unknown_or_sugar_put_in_leaves_the_result_to_be_measured() => Cellar()
        .Does("""{"kind":"receive","what":"spirit","litres":10,"abv":96}""")
        .Refuses(RefusalCode.Missing, """{"kind":"fortify","sources":[{"lot":"L1","litres":40}],"spiritLitres":4,"targets":[{"lot":"L1F","vessel":"V3"}]}""", "targets[0].litres")
        .Refuses(RefusalCode.Missing, """{"kind":"sweeten","sources":[{"lot":"L1","litres":40}],"sweetenerLitres":1,"targets":[{"lot":"L1F","vessel":"V3"}]}""", "targets[0].litres");
}
