namespace Cellarbook.Core.Tests.Diary;

/// <summary>Ready-made cellars for tests that need a bit of everything.</summary>
public static class Cellars
{
    /// <summary>
    /// On 2026-03-01: must M1 (20 L in V1), wine W1 (80 L of 12.5 % in T1), W2 (20 L of 18 % in V2), cask K1 (19 L of 13 % in C1), bottles B1 (60 of
    /// 750 mL, 12.5 %), fruit P1 (100 kg), lees and marc on hand; V3 (30 L) and T2 (100 L) stand empty.
    /// </summary>
    public static Check Stocked() => new Check().On("2026-03-01")
        .Vessel("V1", "30").Vessel("V2", "30").Vessel("V3", "30").Vessel("T1", "100").Vessel("T2", "100").Vessel("C1", "20")
        .Does("""
            {"kind":"open","stocks":[
              {"what":"must","lot":"M1","vessel":"V1","litres":21},
              {"what":"wine","lot":"W1","vessel":"T1","litres":80,"abv":12.5},
              {"what":"wine","lot":"W2","vessel":"V2","litres":21,"abv":18},
              {"what":"wine","lot":"K1","vessel":"C1","litres":19,"abv":13},
              {"what":"bottled","bottling":"B1","bottles":60,"bottleMl":750,"abv":12.5}]}
            """)
        .Does("""{"kind":"receive","what":"fruit","lot":"P1","kilograms":100}""")
        .Does("""{"kind":"lose","as":"lees","lot":"W2","litres":1}""")
        .Does("""{"kind":"lose","as":"marc","lot":"M1","litres":1}""")
        .On("2026-03-05");
}
