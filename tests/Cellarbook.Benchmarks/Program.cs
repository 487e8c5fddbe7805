using System.Diagnostics;
using Cellarbook.Benchmarks;

// dotnet run -c Release --project tests/Cellarbook.Benchmarks            prints the whole table (some minutes)
// dotnet run -c Release --project tests/Cellarbook.Benchmarks -- 100000  the same with a smaller large book
// dotnet run -c Release --project tests/Cellarbook.Benchmarks -- limits  the rows about limits alone
// dotnet run -c Release --project tests/Cellarbook.Benchmarks -- solera  only the traces through a solera
// dotnet run -c Release --project tests/Cellarbook.Benchmarks -- pages   only the pages: of the demonstration book, and of a cellar of 10,000 lots
// dotnet run -c Release --project tests/Cellarbook.Benchmarks -- journal ROWS FILE   only writes a generated journal
if (args is ["journal", var wanted, var target])
{
    using var writer = new StreamWriter(target);
    Console.WriteLine(new CellarGenerator(7).Write(writer, int.Parse(wanted), 14 * 365, new(2010, 1, 1)));
    return;
}
if (args is ["limits"])
{
    new LimitsBench(new Report()).Run();
    return;
}
if (args is ["solera"])
{
    var alone = new Report();
    new SoleraBench(alone).Run();
    alone.Print();
    return;
}
if (args is ["pages"])
{
    var alone = new Report();
    var aside = Directory.CreateTempSubdirectory("cellarbook-bench-").FullName;
    await new PagesBench(aside, alone).Run();
    alone.Print();
    Directory.Delete(aside, recursive: true);
    return;
}
var large = args.Length > 0 ? int.Parse(args[0]) : 1_000_000;
var folder = Directory.CreateTempSubdirectory("cellarbook-bench-").FullName;
try
{
    var report = new Report();
    Console.WriteLine($"{Environment.ProcessorCount} cores, {GC.GetGCMemoryInfo().TotalAvailableMemoryBytes >> 30} GiB, {System.Runtime.InteropServices.RuntimeInformation.OSDescription}, .NET {Environment.Version}, file system {new DriveInfo(folder).DriveFormat}, bare write and fsync {Report.Time(Bare.Fsync(folder))}");
    new HistoryBench(folder, large, report).Run();
    new ServingBench(folder, large, report).Run();
    new RecordingBench(folder, report).Run();
    new LimitsBench(report).Run();
    new SoleraBench(report).Run();
    new FormulaBench(report).Run();
    await new PagesBench(Path.Combine(folder, "pages"), report).Run();
    report.Print();
    Console.WriteLine($"Peak memory of this process {Process.GetCurrentProcess().PeakWorkingSet64 >> 20} MB.");
}
finally
{
    Directory.Delete(folder, recursive: true);
}
