using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Passbook;

/// <summary>A lot, or a bottling, as a member of a family.</summary>
/// <param name="Code">Its code.</param>
/// <param name="IsBottling">True for a bottling.</param>
public readonly record struct Kin(string Code, bool IsBottling);

/// <summary>A member where it stands in the family.</summary>
/// <param name="Who">The lot or bottling.</param>
/// <param name="Generation">Below nil for ancestors, nil for the lot itself, above for what came of it.</param>
public sealed record FamilyMember(Kin Who, int Generation);

/// <summary>What flowed from one member into another, in all.</summary>
/// <param name="From">What gave.</param>
/// <param name="To">What received.</param>
/// <param name="Volume">How much.</param>
public sealed record FamilyFlow(Kin From, Kin To, Volume Volume);

/// <summary>
/// A lot with its ancestors and descendants, a few generations each way. Each member stands once, in the generation nearest to the lot, so that
/// casks that feed each other end somewhere. Entries taken back count for nothing.
/// </summary>
public sealed class LotFamily
{
    private readonly List<FamilyMember> members = [];
    private readonly List<FamilyFlow> flows = [];

    private LotFamily()
    {
    }

    /// <summary>The members, oldest generation first; within one, by what flowed, most first.</summary>
    public IReadOnlyList<FamilyMember> Members => members;

    /// <summary>Flows between members of different generations, away from or towards the lot.</summary>
    public IReadOnlyList<FamilyFlow> Flows => flows;

    /// <summary>How many members were left out because there are too many.</summary>
    public int LeftOut { get; private set; }

    /// <summary>True when the lot came from nothing else and nothing came of it.</summary>
    public bool IsAlone => members.Count <= 1;

    /// <summary>The family of a lot.</summary>
    /// <param name="book">The book.</param>
    /// <param name="index">Its index.</param>
    /// <param name="lot">The lot.</param>
    /// <param name="generations">How many each way.</param>
    /// <param name="most">How many members each generation shows.</param>
    public static LotFamily Of(Book.Book book, EntryIndex index, string lot, int generations = 4, int most = 8)
    {
        var family = new LotFamily();
        var self = new Kin(lot, IsBottling: false);
        var placed = new HashSet<Kin> { self };
        family.members.Add(new(self, 0));
        // Both ways begin at the lot itself, which may have thousands of entries; those are gone through once.
        var own = FlowsOf(book, index, self).ToArray();
        family.Follow(of => of == self ? own : FlowsOf(book, index, of), self, placed, -1, generations, most);
        family.Follow(of => of == self ? own : FlowsOf(book, index, of), self, placed, 1, generations, most);
        var order = family.members.Select((member, at) => (member, at)).OrderBy(pair => pair.member.Generation).ThenBy(pair => pair.at).Select(pair => pair.member).ToArray();
        family.members.Clear();
        family.members.AddRange(order);
        return family;
    }

    /// <summary>What flowed into or out of a lot or bottling, by lot and bottling, most first.</summary>
    /// <param name="flows">What flowed into it and out of it.</param>
    /// <param name="of">The lot or bottling.</param>
    /// <param name="into">True for what flowed into it.</param>
    private static IEnumerable<(Kin Other, Volume Volume)> Around(IEnumerable<LotFlow> flows, Kin of, bool into)
    {
        var sums = new Dictionary<Kin, Volume>();
        foreach (var flow in flows)
        {
            var (giver, taker) = (KinOf(flow.From), KinOf(flow.To));
            if (giver == taker || (into ? taker : giver) != of) continue;
            var other = into ? giver : taker;
            sums[other] = sums.GetValueOrDefault(other) + flow.Volume;
        }
        return sums.Where(pair => pair.Value.IsPositive).Select(pair => (pair.Key, pair.Value)).OrderByDescending(pair => pair.Value).ThenBy(pair => pair.Key.Code, StringComparer.Ordinal);
    }

    private static IEnumerable<LotFlow> FlowsOf(Book.Book book, EntryIndex index, Kin of)
    {
        foreach (var entry in of.IsBottling ? index.OfBottling(book, of.Code) : index.OfLot(book, of.Code))
        {
            if (book.IsLeftOut(entry)) continue;
            foreach (var deed in entry.Deeds)
                foreach (var flow in LotFlow.Of(deed)) yield return flow;
        }
    }

    private static Kin KinOf(Account account) => new(account.Name, account.Section == Section.Bottled);

    private void Follow(Func<Kin, IEnumerable<LotFlow>> flowsOf, Kin self, HashSet<Kin> placed, int way, int generations, int most)
    {
        var generation = new List<Kin> { self };
        for (var at = 1; at <= generations && generation.Count > 0; at++)
        {
            var next = new List<Kin>();
            foreach (var (here, other, volume) in generation.SelectMany(here => Around(flowsOf(here), here, into: way < 0).Select(pair => (here, pair.Other, pair.Volume))))
            {
                if (!placed.Contains(other))
                {
                    if (next.Count == most)
                    {
                        LeftOut++;
                        continue;
                    }
                    placed.Add(other);
                    next.Add(other);
                    members.Add(new(other, way * at));
                }
                else if (!next.Contains(other)) continue;
                flows.Add(way < 0 ? new(other, here, volume) : new(here, other, volume));
            }
            generation = next;
        }
    }
}
