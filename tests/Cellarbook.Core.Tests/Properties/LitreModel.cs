namespace Cellarbook.Core.Tests.Properties;

/// <summary>
/// A small cellar book in other arithmetic, to hold the real one against: litres as decimals in one dictionary, everything worked out anew from
/// the first entry each time. It knows shortage (also within one place), capacity, one lot in a vessel, and the place of a late or corrected entry; nothing else.
/// </summary>
public sealed class LitreModel(IReadOnlyDictionary<string, decimal> capacities)
{
    /// <summary>From or to is "must:lot:vessel", "wine:lot:vessel", "bottles:code" or "" for outside.</summary>
    public sealed record Move(string From, string To, decimal Litres);

    /// <summary>What is done, found on the state before it; null when it can't be.</summary>
    public delegate List<Move>? Rule(State before);

    private sealed record Done(int Day, long Entry, List<Move> Moves);

    private List<Done> book = [];
    private long entries;

    public State Now => Run(book, out _) ?? throw new InvalidOperationException("The model broke its own rules.");

    /// <summary>Records something on a day, after what is there of that day; false when it or anything after it can't be.</summary>
    public bool Do(int day, Rule rule) => Put(book, book.TakeWhile(done => done.Day <= day).Count(), day, rule);

    /// <summary>Leaves an entry out and does something in its place, or nothing.</summary>
    public bool Correct(long entry, Rule? rule)
    {
        var at = book.FindIndex(done => done.Entry == entry);
        if (at < 0) return false;
        var without = book.Where(done => done.Entry != entry).ToList();
        if (rule is not null) return Put(without, at, book[at].Day, rule);
        if (Run(without, out _) is null) return false;
        book = without;
        entries++;
        return true;
    }

    private bool Put(List<Done> onto, int at, int day, Rule rule)
    {
        if (Run(onto[..at], out var before) is null || rule(before) is not { } moves) return false;
        List<Done> with = [.. onto[..at], new(day, entries + 1, moves), .. onto[at..]];
        if (Run(with, out _) is null) return false;
        book = with;
        entries++;
        return true;
    }

    private State? Run(List<Done> order, out State state)
    {
        state = new State();
        foreach (var done in order)
        {
            foreach (var move in done.Moves)
            {
                // A move within one place nets to nil, but not of more than is there.
                if (move.From == move.To && state[move.From] < move.Litres) return null;
                if (move.From.Length > 0) state.Litres[move.From] = state.Litres.GetValueOrDefault(move.From) - move.Litres;
                if (move.To.Length > 0) state.Litres[move.To] = state.Litres.GetValueOrDefault(move.To) + move.Litres;
            }
            if (state.Litres.Values.Any(litres => litres < 0)) return null;
            foreach (var (vessel, capacity) in capacities)
            {
                var there = state.Litres.Where(pair => pair.Value != 0 && pair.Key.EndsWith(":" + vessel, StringComparison.Ordinal)).ToList();
                if (there.Count > 1 || there.Sum(pair => pair.Value) > capacity) return null;
            }
        }
        return state;
    }

    /// <summary>Litres by key; a key is there once something lay there.</summary>
    public sealed class State
    {
        public Dictionary<string, decimal> Litres { get; } = [];

        public decimal this[string key] => Litres.GetValueOrDefault(key);

        /// <summary>What a lot in a vessel means: what lies there, else the wine or must that once did; null when neither.</summary>
        public string? Place(string lot, string vessel)
        {
            var keys = new[] { $"must:{lot}:{vessel}", $"wine:{lot}:{vessel}" };
            return keys.FirstOrDefault(key => this[key] > 0) ?? keys.LastOrDefault(Litres.ContainsKey);
        }

        /// <summary>What lies in a vessel, or null.</summary>
        public string? In(string vessel) => Litres.FirstOrDefault(pair => pair.Value > 0 && pair.Key.EndsWith(":" + vessel, StringComparison.Ordinal)).Key;
    }
}
