using Cellarbook.Core.Limits;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>The register says who, when, what, batch, dose, total so far, limit and verdict, as they were then.</summary>
public class AdditionsRegisterTests
{
    private static Check Cellar() => new Check().On("2026-03-01").Does("""{"kind":"premises","regimes":["eu"],"timeZone":"Europe/Vienna"}""")
        .Vessel("V1", "200").Vessel("V2", "200")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"R1","vessel":"V1","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 1"}""")
        .Does("""{"kind":"measure","lot":"R1","sugarGramsPerLitre":2,"totalSo2MgPerLitre":20,"taGramsPerLitre":4.5}""")
        .Does("""{"kind":"deliver","supplier":"Lindmoor Supplies","document":"LS-26","items":[{"material":"kmbs","delivery":"D1","grams":500,"batch":"K-26-04"},{"material":"tartaric-acid","delivery":"D2","grams":500,"batch":"T-9"}]}""");

    private static IReadOnlyList<AdditionRow> Register(Check check, string? lot = null, string from = "2026-01-01", string to = "2026-12-31") => AdditionsRegister.Of(check.Book, DateOnly.Parse(from, null), DateOnly.Parse(to, null), lot);

    [Fact]
    public void An_addition_stands_with_batch_dose_total_limit_and_verdict()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"add","lot":"R1","doneBy":"Ida","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""")
            .On("2026-03-05").Does("""{"kind":"add","lot":"R1","doneBy":"Ida","reason":"before bottling","items":[{"material":"kmbs","grams":5}]}""");
        var rows = Register(check);
        Assert.Equal(2, rows.Count);
        var (first, second) = (rows[0], rows[1]);
        Assert.Equal(("Ida", "K-26-04", "D1", false, "Lindmoor Supplies", "10 g", "E 224"), (first.DoneBy, first.Batch, first.Delivery, first.IsAssumed, first.Supplier, first.Amount, first.ENumber));
        Assert.Equal(("sulphur dioxide", 57.63m), (first.Substance, decimal.Round(first.Dose!.Value.NanogramsPerLitre / 1e6m, 2)));
        Assert.Equal(86.44m, decimal.Round(second.TotalSoFar!.Value.NanogramsPerLitre / 1e6m, 2));
        Assert.Contains("at most 150 mg/L", second.Limit.ToString(), StringComparison.Ordinal);
        Assert.Equal(("within", true, "before bottling"), (second.Verdict, second.IsAssumed, second.Reason));
        Assert.Contains("2019/934", second.Source, StringComparison.Ordinal);
        Assert.Equal("100", second.Treated.Litres);
        Assert.Single(Register(check, from: "2026-03-03"));
    }

    [Fact]
    public void Sugar_that_raised_the_must_shows_the_volume_before_and_after()
    {
        var check = Cellar().Vessel("V9", "300").On("2026-03-02").Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"V9","litres":160}""")
            .Does("""{"kind":"add","lot":"M1","items":[{"material":"sucrose","grams":3000,"riseLitres":1.9,"riseBy":"sugar"}]}""");
        var row = Assert.Single(Register(check));
        Assert.Equal(("160", "161.9"), (row.Treated.Litres, row.After.Litres));
        Assert.Equal(18.53m, decimal.Round(row.Dose!.Value.NanogramsPerLitre / 1e9m, 2));
    }

    [Fact]
    public void An_acid_addition_shows_the_acidity_before_and_after()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"add","lot":"R1","items":[{"material":"tartaric-acid","grams":50}]}""")
            .On("2026-03-03").Does("""{"kind":"measure","lot":"R1","taGramsPerLitre":5.0}""").On("2026-03-04").Does("""{"kind":"measure","lot":"R1","taGramsPerLitre":4.9}""");
        var row = Assert.Single(Register(check));
        Assert.Equal(("4.5", "5.0"), (row.AcidityBefore, row.AcidityAfter));
    }

    [Fact]
    public void Free_text_and_cultures_stand_as_written_without_a_dose()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"R1","items":[{"material":"oak from the shed","grams":200,"batch":"shed"}]}""")
            .Does("""{"kind":"pitch","lot":"R1","cultures":[{"name":"Bacteria M","what":"malolactic","grams":2,"batch":"M-1"}]}""");
        var rows = Register(check);
        Assert.Equal([("oak from the shed", "200 g", "shed"), ("Bacteria M", "2 g", "M-1")], rows.Select(row => (row.Material, row.Amount, row.Batch)));
        Assert.All(rows, row => Assert.Null(row.Dose));
    }

    [Fact]
    public void What_a_packet_leaves_open_stands_as_open_and_corks_are_no_addition()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"R1","items":[{"material":"kit-stabiliser-sachet","pieces":1}]}""")
            .Does("""{"kind":"bottle","lot":"R1","fills":[{"bottling":"B","bottles":10,"bottleMl":750}],"materials":[{"material":"cork-natural","delivery":"unknown","pieces":10}]}""");
        Assert.Equal(("kit-stabiliser-sachet", "cannot say"), Register(check).Select(row => (row.Code, row.Verdict)).Single());
    }

    [Fact]
    public void A_treatment_of_an_imported_journal_stands_with_its_batch_and_dose_unknown()
    {
        var check = new Check().Imports("event_id,date,category,lot_from,vessel_from,lot_to,vessel_to,volume_ml,abv_pct,document,note,entered_by\nE1,2025-09-01,RECEIVED_BULK,,,L1,T1,100000,12.5,,,\nE2,2025-09-03,TREATMENT,L1,T1,,,,,sheet 4,bentonite 50 g/hL,Ida\nE3,2025-09-04,TREATMENT,L1,,,,,,,,\n");
        var rows = Register(check, from: "2025-01-01");
        Assert.Equal([("L1", "T1", "bentonite 50 g/hL", "", "unknown", "sheet 4", "Ida"), ("L1", "T1", "Addition that adds no counted volume", "", "unknown", "", "")], rows.Select(row => (row.Lot, row.Vessel, row.Material, row.Amount, row.Batch, row.Document, row.DoneBy)));
        Assert.All(rows, row => Assert.Equal((null, "100"), (row.Dose, row.Treated.Litres)));
        // It follows the wine into another lot like any addition.
        check.On("2025-10-01").Vessel("T2", "200").Does("""{"kind":"transfer","sources":[{"lot":"L1","litres":100}],"targets":[{"lot":"N","vessel":"T2","litres":100}]}""");
        Assert.Equal(2, Register(check, "N", from: "2025-01-01").Count);
    }

    [Fact]
    public void What_was_taken_back_after_the_period_was_closed_says_so()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":3}]}""");
        var entry = check.Number;
        check.Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""").Does($$"""{"kind":"correct","day":"2026-04-02","takesBack":{{entry}},"reason":"it was not done"}""");
        Assert.Equal($"taken back by entry {check.Number}", Assert.Single(Register(check)).Note);
    }

    [Fact]
    public void A_lots_register_holds_what_was_added_to_wine_that_is_in_it_now_and_not_what_was_taken_back()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":3}]}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"R1","litres":100}],"targets":[{"lot":"NEW","vessel":"V2","litres":100}]}""")
            .Does("""{"kind":"add","lot":"NEW","items":[{"material":"kmbs","grams":1}]}""");
        Assert.Equal(["R1", "NEW"], Register(check, "NEW").Select(row => row.Lot));
        check.Does($$"""{"kind":"correct","takesBack":{{check.Number}},"reason":"it was not done"}""");
        Assert.Equal(["R1"], Register(check, "NEW").Select(row => row.Lot));
    }
}
