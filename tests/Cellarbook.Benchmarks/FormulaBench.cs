using Cellarbook.Core.Chemistry;

namespace Cellarbook.Benchmarks;

/// <summary>What a formula of the bench costs.</summary>
internal sealed class FormulaBench(Report report)
{
    private const int Rounds = 100_000;

    public void Run()
    {
        Row("density of ethanol and water by R 22", x => EthanolWater.KgPerCubicMetre(x, 20), "≤ 10 µs, nothing allocated");
        Row("R 22 the other way: mass fraction from density", x => EthanolWater.MassFractionFromDensity(990 - 190 * x, 20), "≤ 20 µs, nothing allocated");
    }

    private void Row(string what, Func<double, double> formula, string budget)
    {
        double sum = 0;
        void Work()
        {
            for (var i = 0; i < Rounds; i++) sum += formula(i / (double)Rounds);
        }
        Work();
        var before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        var bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        var time = Timing.Median(11, Work) / Rounds;
        if (!double.IsFinite(sum)) throw new InvalidOperationException("A formula gave no number.");
        report.Row(what, $"{time * 1_000_000:0} ns, {bytes} bytes in {Rounds:N0}", "", budget);
    }
}
