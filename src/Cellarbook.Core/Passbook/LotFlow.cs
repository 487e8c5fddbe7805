using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Passbook;

/// <summary>So much that one deed moved from a lot or bottling to another, directly or through a process; below nil where it was taken back.</summary>
internal readonly record struct LotFlow(Account From, Account To, Volume Volume)
{
    /// <summary>What a deed moved between lots and bottlings, moves within one of them included.</summary>
    public static IEnumerable<LotFlow> Of(Deed deed)
    {
        // A take-back moves the other way and counts against what it takes back.
        var back = deed.TakesBack is not null;
        foreach (var posting in deed.Postings)
            if (IsWine(posting.From) && IsWine(posting.To)) yield return back ? new(posting.To, posting.From, -posting.Volume) : new(posting.From, posting.To, posting.Volume);
        foreach (var process in Processes(deed))
        {
            var (puts, gets) = (process.Where(posting => posting.To.Section == Section.Process && IsWine(posting.From)).ToArray(), process.Where(posting => posting.From.Section == Section.Process && IsWine(posting.To)).ToArray());
            var made = (back ? puts : gets).Aggregate(Volume.None, (sum, posting) => sum + posting.Volume);
            if (!made.IsPositive) continue;
            // Of several results each holds its part of what was put in, by volume.
            foreach (var put in back ? gets : puts)
                foreach (var got in back ? puts : gets)
                {
                    var part = new Volume((long)((Int128)put.Volume.Microlitres * got.Volume.Microlitres / made.Microlitres));
                    yield return back ? new(put.To, got.From, -part) : new(put.From, got.To, part);
                }
        }
    }

    /// <summary>The processes of a deed, one after the other: each ends where nothing is left in it.</summary>
    public static IEnumerable<IReadOnlyList<Posting>> Processes(Deed deed)
    {
        List<Posting>? process = null;
        var balance = 0L;
        foreach (var posting in deed.Postings)
        {
            if (posting.From.Section != Section.Process && posting.To.Section != Section.Process) continue;
            (process ??= []).Add(posting);
            balance += posting.To.Section == Section.Process ? posting.Volume.Microlitres : -posting.Volume.Microlitres;
            if (balance != 0) continue;
            yield return process;
            process = null;
        }
        if (process is not null) yield return process;
    }

    private static bool IsWine(Account account) => account.Section is Section.Must or Section.Bulk or Section.Bottled;
}
