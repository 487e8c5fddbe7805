using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Each reason to refuse that the core knows is provoked at least once; the others are named with the reason why not.</summary>
public class EveryRefusalTests
{
    private const string Head = "event_id,date,category,lot_from,lot_to,volume_ml,bottles,bottle_ml,abv_pct,reverses,to_account\n";

    /// <summary>Only the host can refuse for these: it alone sees keys, files and locks.</summary>
    private static readonly RefusalCode[] HostAlone = [RefusalCode.KeyUsed, RefusalCode.DiskFull, RefusalCode.ReadOnly];

    public static TheoryData<RefusalCode, string> ByOperation => new()
    {
        { RefusalCode.Unreadable, "{" },
        { RefusalCode.TooLarge, $$"""{"kind":"observe","lot":"M1","what":"taste","finding":"{{new string('x', 4001)}}"}""" },
        { RefusalCode.UnknownKind, """{"kind":"uncork"}""" },
        { RefusalCode.UnknownField, """{"kind":"gauge","vessel":"T1","liters":1}""" },
        { RefusalCode.UnknownWord, """{"kind":"remove","as":"lost","lot":"W1","litres":1}""" },
        { RefusalCode.Missing, """{"kind":"gauge","vessel":"T1"}""" },
        { RefusalCode.BadName, """{"kind":"receive","what":"must","lot":"a:b","litres":1}""" },
        { RefusalCode.NotANumber, """{"kind":"gauge","vessel":"T1","litres":"12,5"}""" },
        { RefusalCode.TooFine, """{"kind":"gauge","vessel":"T1","litres":1e-7}""" },
        { RefusalCode.TooLargeNumber, """{"kind":"gauge","vessel":"T1","litres":1e30}""" },
        { RefusalCode.NotPositive, """{"kind":"gauge","vessel":"T1","litres":-1}""" },
        { RefusalCode.NoSuchDay, """{"kind":"gauge","day":"2026-02-29","vessel":"T1","litres":1}""" },
        { RefusalCode.DayToCome, """{"kind":"gauge","day":"2030-01-02","vessel":"T1","litres":1}""" },
        { RefusalCode.EnteredBeforeItHappened, """{"kind":"gauge","vessel":"T1","litres":1,"enteredOn":"2026-03-04"}""" },
        { RefusalCode.PeriodClosed, """{"kind":"close","through":"2026-02-01"}""" },
        { RefusalCode.OpeningNotFirst, """{"kind":"open","stocks":[{"what":"wine","lot":"W9","litres":5}]}""" },
        { RefusalCode.WrongAccount, """{"kind":"declareWine","lot":"W1","litres":80,"abv":12}""" },
        { RefusalCode.UnknownVessel, """{"kind":"gauge","vessel":"T9","litres":1}""" },
        { RefusalCode.UnknownLot, """{"kind":"lose","as":"spill","lot":"W9","litres":1}""" },
        { RefusalCode.UnknownBottling, """{"kind":"remove","as":"sold","bottling":"B9","bottles":1}""" },
        { RefusalCode.UnknownMaterial, """{"kind":"deliver","items":[{"material":"moon dust","delivery":"D1","grams":1}]}""" },
        { RefusalCode.UnknownDelivery, """{"kind":"add","lot":"W1","items":[{"material":"kmbs","delivery":"D9","grams":1}]}""" },
        { RefusalCode.WrongUnit, """{"kind":"add","lot":"W1","items":[{"material":"kmbs","millilitres":5}]}""" },
        { RefusalCode.NotForWine, """{"kind":"add","lot":"W1","items":[{"material":"bleach","millilitres":5}]}""" },
        { RefusalCode.UnknownEntry, """{"kind":"correct","takesBack":"E-99","reason":"?"}""" },
        { RefusalCode.UnknownContact, """{"kind":"blankContact","contact":9}""" },
        { RefusalCode.SeveralPlaces, """{"kind":"lose","as":"spill","lot":"S1","litres":1}""" },
        { RefusalCode.WineIntoMust, """{"kind":"transfer","sources":[{"lot":"W1","litres":1}],"targets":[{"lot":"M1","vessel":"V1","litres":1}]}""" },
        { RefusalCode.MustIntoWine, """{"kind":"bottle","lot":"M1","fills":[{"bottling":"B2","bottles":1,"bottleMl":750}]}""" },
        { RefusalCode.KindsMeet, """{"kind":"transfer","sources":[{"lot":"S1","vessel":"V3","litres":1}],"targets":[{"lot":"W1","vessel":"T1","litres":1}]}""" },
        { RefusalCode.DoesNotAddUp, """{"kind":"transfer","sources":[{"lot":"W1","litres":2}],"targets":[{"litres":1}]}""" },
        { RefusalCode.OtherBottleSize, """{"kind":"bottle","lot":"W1","fills":[{"bottling":"B1","bottles":1,"bottleMl":375}]}""" },
        { RefusalCode.MoreThanIsThere, """{"kind":"lose","as":"spill","lot":"W1","litres":81}""" },
        { RefusalCode.NothingThere, """{"kind":"add","lot":"E1","items":[{"material":"kmbs","grams":5}]}""" },
        { RefusalCode.MaterialExists, """{"kind":"material","code":"kmbs","name":"x","countedIn":"grams"}""" },
        { RefusalCode.DeliveryExists, """{"kind":"deliver","items":[{"material":"bentonite","delivery":"D1","grams":5}]}""" },
        { RefusalCode.OverCapacity, """{"kind":"receive","what":"bulkWine","lot":"K1","vessel":"C1","litres":2,"abv":13}""" },
        { RefusalCode.VesselHoldsAnother, """{"kind":"receive","what":"bulkWine","lot":"K2","vessel":"C1","litres":1,"abv":13}""" },
        { RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":8,"reason":"no fruit"}""" },
        { RefusalCode.AlreadyTakenBack, """{"kind":"correct","takesBack":10,"reason":"again"}""" },
        { RefusalCode.CantBeTakenBack, """{"kind":"correct","takesBack":1,"reason":"no vessel"}""" },
        { RefusalCode.LimitsUnreadable, """{"kind":"limitSet","code":"house","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","seen":"text"}]}""" },
        { RefusalCode.LimitsExpired, """{"kind":"limitSet","code":"house","as":"house","expires":"2025-01-01","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","source":"own taste","seen":"text"}]}""" },
        { RefusalCode.ReasonNeeded, """{"kind":"add","lot":"W1","items":[{"material":"kmbs","grams":100}]}""" },
        { RefusalCode.VesselExists, """{"kind":"vessel","code":"T1"}""" },
        { RefusalCode.CapacityBelowHeld, """{"kind":"vessel","code":"T1","capacityLitres":79,"changes":true}""" },
    };

    public static TheoryData<RefusalCode, string> ByImport => new()
    {
        { RefusalCode.UnknownColumn, "event_id,date,category,volume_ml,gallons\nE1,2026-03-05,SPILLAGE,1,1\n" },
        { RefusalCode.MissingColumn, "event_id,date,category\nE1,2026-03-05,SPILLAGE\n" },
        { RefusalCode.Empty, Head },
        { RefusalCode.UnknownCategory, Head + "E1,2026-03-05,DRUNK,W1,,1000,,,,,\n" },
        { RefusalCode.CountAndVolumeDisagree, Head + "E1,2026-03-05,BOTTLED,W1,B2,7499,10,750,,,\n" },
        { RefusalCode.WrongDirection, Head + "E1,2026-03-05,SPILLAGE,W1,W1,1000,,,,,\n" },
        { RefusalCode.ClassDisagrees, Head + "E1,2026-03-05,RECEIVED_BULK,,N1,1000,,,12.5,,BULK:B21\n" },
        { RefusalCode.ProcessNotCleared, Head + "E1,2026-03-05,BLEND_USED,W1,,1000,,,,,\n" },
        { RefusalCode.TakeBackNotWhole, Head + "E1,2026-03-05,SPILLAGE,W1,,1000,,,,,\nE2,2026-03-05,SPILLAGE,,W1,900,,,,E1,\n" },
        { RefusalCode.EventDiffers, Head + "KNOWN,2026-03-05,SPILLAGE,W1,,999,,,,,\n" },
    };

    /// <summary>The stocked cellar with sparkling wine in two places, a blend from fruit that needs it, and an imported event.</summary>
    private static Check Cellar() => Cellars.Stocked()
        .Does("""{"kind":"makeSparkling","sources":[{"lot":"W1","litres":10}],"targets":[{"lot":"S1","vessel":"V3","litres":5,"abv":12.5},{"lot":"S1","vessel":"unplaced","litres":5,"abv":12.5}]}""")
        .Does("""{"kind":"crush","fruit":[{"parcel":"P1","kilograms":50}],"targets":[{"lot":"M2","litres":30}]}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"E1","litres":1,"abv":12}""").Does("""{"kind":"lose","as":"spill","lot":"E1","litres":1}""")
        .Does("""{"kind":"deliver","items":[{"material":"bentonite","delivery":"D1","grams":500}]}""")
        .Does("""{"kind":"limitSet","code":"house","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","source":"own taste","seen":"text"}]}""")
        .Does("""{"kind":"correct","takesBack":10,"reason":"no marc yet"}""")
        .Imports(Head + "KNOWN,2026-03-05,SPILLAGE,W1,,1000,,,,,\n")
        .Does("""{"kind":"close","through":"2026-02-28"}""");

    [Theory]
    [MemberData(nameof(ByOperation))]
    public void An_operation_is_refused(RefusalCode code, string json) => Cellar().Refuses(code, json);

    [Theory]
    [MemberData(nameof(ByImport))]
    public void A_file_is_refused(RefusalCode code, string csv) => Cellar().RefusesImport(code, csv);

    [Fact]
    public void Every_reason_is_provoked()
    {
        var provoked = ByOperation.Select(row => row.Data.Item1).Concat(ByImport.Select(row => row.Data.Item1)).ToHashSet();
        Assert.Empty(Enum.GetValues<RefusalCode>().Except(provoked).Except(HostAlone));
        Assert.Empty(HostAlone.Intersect(provoked));
    }

    [Fact]
    public void One_bad_input_has_one_first_answer_in_order_of_precedence()
    {
        var refusals = Cellar().Refusals("""{"kind":"lose","day":"2031-01-01","as":"spill","lot":"NONE","litres":-1,"enteredOn":"2030-12-31"}""");
        Assert.Equal(refusals.Select(refusal => refusal.Code).Order(), refusals.Select(refusal => refusal.Code));
        Assert.Equal(RefusalCode.DayToCome, refusals[0].Code);
    }

    [Fact]
    public void After_a_refusal_the_next_good_one_works() => Cellar()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"lose","as":"spill","lot":"W1","litres":1000}""")
        .Does("""{"kind":"lose","as":"spill","lot":"W1","litres":1}""");

    [Fact]
    public void Figures_that_together_overflow_are_refused_and_harm_nothing()
    {
        var check = Cellar().Vessel("LAKE").Refuses(RefusalCode.TooLargeNumber, """{"kind":"receive","what":"bottledWine","bottling":"X","bottles":1000000000,"bottleMl":60000}""");
        var most = """{"lot":"W1","litres":1000000000}""";
        check.Refuses(RefusalCode.TooLargeNumber, $$"""{"kind":"remove","as":"sold","lines":[{{string.Join(",", Enumerable.Repeat(most, 9300))}}]}""");
        check.Refuses(RefusalCode.TooLargeNumber, $$"""{"kind":"receive","what":"must","lot":"M9","litres":1,"origin":[{{string.Join(",", Enumerable.Repeat("""{"percent":100}""", 30000))}}]}""");
        check.Does("""{"kind":"receive","what":"must","lot":"M9","vessel":"LAKE","litres":1000000000}""");
    }
}
