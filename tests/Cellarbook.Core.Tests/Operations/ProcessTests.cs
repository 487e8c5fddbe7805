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
    public void A_result_of_unstated_strength_is_worked_out_by_volume_of_what_was_put_in() => Cellar()
        .Does("""{"kind":"blend","sources":[{"lot":"L1","litres":30},{"lot":"L2","litres":20}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":50}]}""").Flagged("strength_by_volume").Stands("CUVEE", "V3", "14");

    [Fact]
    public void Contraction_is_no_water_whatever_the_order_of_the_rows() => new Check().Vessel("V1", "100").Vessel("V2", "100")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":50,"abv":12}""")
        .Imports("event_id,date,category,lot_from,vessel_from,lot_to,vessel_to,volume_ml\nE1,2026-03-02,BLEND_USED,L1,V1,,,20000\nE1,2026-03-02,PROCESS_CONTRACTION,,,E1,,100\nE1,2026-03-02,BLEND_MADE,,,L2,V2,20100\n")
        .Holds("L2", "V2", "20.1").Stands("L2", "V2", "12");
}
