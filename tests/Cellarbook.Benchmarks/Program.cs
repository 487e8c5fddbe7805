using System.Diagnostics;
using Cellarbook.Benchmarks;
using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Imports;
var rows = args.Length > 0 ? int.Parse(args[0], System.Globalization.CultureInfo.InvariantCulture) : 100_000;
var path = Path.Combine(Path.GetTempPath(), $"bench-{rows}.csv");
if (!File.Exists(path)) { using var w = new StreamWriter(path); Console.WriteLine(new CellarGenerator(7).Write(w, rows, 14, new(2010, 1, 1))); }
var sw = Stopwatch.StartNew();
var (events, refusals) = JournalUpload.Read(File.OpenRead(path), new(2026, 1, 1));
Console.WriteLine($"read {events.Count} events {refusals.Count} refusals in {sw.ElapsedMilliseconds} ms, {GC.GetTotalMemory(false) >> 20} MB");
foreach (var r in refusals.Take(3)) Console.WriteLine(r);
sw.Restart();
var book = new Book();
var trial = book.ProposeImport(events, new(2026, 1, 1));
Console.WriteLine($"proposed in {sw.ElapsedMilliseconds} ms {trial.Refusals.Count}"); foreach (var r in trial.Refusals.Take(3)) Console.WriteLine(r);
sw.Restart(); book.Accept(trial); Console.WriteLine($"accepted {sw.ElapsedMilliseconds} ms");
events = null!; trial = null!; GC.Collect(); Console.WriteLine($"memory {GC.GetTotalMemory(true) >> 20} MB");
var last = book.Pages[^1].Day; var p = new Period(new(2023, 5, 1), new(2023, 5, 31));
for (var i = 0; i < 5; i++) { sw.Restart(); var s = UsStatement.Build(book, p); Console.WriteLine($"statement {sw.Elapsed.TotalMilliseconds:0.00} ms {s.Figures.Count} {s.Plain.Contributions.Count}"); }
for (var i = 0; i < 3; i++) {
foreach (var back in new[] { 0, 30, 365 })
{
    sw.Restart();
    var t = book.Propose(new Cellarbook.Core.Operations.Receive { Day = last.AddDays(-back), What = "must", Lot = "X1", Litres = Cellarbook.Core.Quantities.Volume.OfLitres(1) }, new(2030, 1, 1));
    var a = sw.Elapsed.TotalMilliseconds; book.Accept(t);
    Console.WriteLine($"entry {back} days back: propose {a:0.0} accept {sw.Elapsed.TotalMilliseconds - a:0.0} ms {t.Refusals.Count}");
} }
sw.Restart(); var s2 = UsStatement.Build(book, p); Console.WriteLine($"statement {sw.Elapsed.TotalMilliseconds:0.00} ms");
