using System.Globalization;
using Cellarbook.Core.Passbook;

namespace Cellarbook.Pages.Lots;

/// <summary>
/// A family put on paper: a row for each generation, the oldest above; across in per cent of the width, down in pixels, so that codes keep their
/// size at any width. The same stands beside it as a list, for whoever can't see it.
/// </summary>
public sealed class FamilyDrawing
{
    private const int RowHeight = 66, BoxHeight = 28;

    /// <summary>A member put on paper.</summary>
    /// <param name="Text">Its code, cut where it is long.</param>
    /// <param name="Who">The member.</param>
    /// <param name="X">Middle of its box.</param>
    /// <param name="Y">Top of its box.</param>
    public sealed record Box(string Text, Kin Who, string X, int Y);

    /// <summary>A flow put on paper.</summary>
    public sealed record Line(string X1, int Y1, string X2, int Y2);

    private readonly LotFamily family;

    private FamilyDrawing(LotFamily family, Kin self)
    {
        (this.family, Self) = (family, self);
        var rows = family.Members.GroupBy(member => member.Generation).OrderBy(row => row.Key).ToArray();
        var places = new Dictionary<Kin, (string X, int Y)>();
        var boxes = new List<Box>();
        for (var row = 0; row < rows.Length; row++)
        {
            var members = rows[row].ToArray();
            for (var i = 0; i < members.Length; i++)
            {
                var (who, x, y) = (members[i].Who, (100.0 * (i + 0.5) / members.Length).ToString("0.##", CultureInfo.InvariantCulture) + "%", 4 + row * RowHeight);
                places[who] = (x, y);
                boxes.Add(new(who.Code.Length > 10 ? who.Code[..9] + "…" : who.Code, who, x, y));
            }
        }
        Boxes = boxes;
        Lines = [.. family.Flows.Select(flow => new Line(places[flow.From].X, places[flow.From].Y + BoxHeight, places[flow.To].X, places[flow.To].Y))];
        Height = 8 + BoxHeight + (rows.Length - 1) * RowHeight;
        Widest = rows.Max(row => row.Count());
    }

    /// <summary>The lot itself.</summary>
    public Kin Self { get; }

    /// <summary>Members.</summary>
    public IReadOnlyList<Box> Boxes { get; }

    /// <summary>Flows.</summary>
    public IReadOnlyList<Line> Lines { get; }

    /// <summary>Height in pixels.</summary>
    public int Height { get; }

    /// <summary>Members in the widest row.</summary>
    public int Widest { get; }

    /// <summary>Members that found no room.</summary>
    public int LeftOut => family.LeftOut;

    /// <summary>The drawing of a family; null where the lot stands alone.</summary>
    public static FamilyDrawing? Of(LotFamily family, string lot) => family.IsAlone ? null : new(family, new(lot, IsBottling: false));

    /// <summary>What flowed into a member, from older generations.</summary>
    public IEnumerable<FamilyFlow> Before(Kin who) => GenerationOf(who) > 0 ? [] : family.Flows.Where(flow => flow.To == who && GenerationOf(flow.From) < GenerationOf(who));

    /// <summary>What flowed out of a member, into younger generations.</summary>
    public IEnumerable<FamilyFlow> After(Kin who) => GenerationOf(who) < 0 ? [] : family.Flows.Where(flow => flow.From == who && GenerationOf(flow.To) > GenerationOf(who));

    private int GenerationOf(Kin who) => family.Members.First(member => member.Who == who).Generation;
}

/// <summary>A branch of a family told as a list: what flowed into a member, or out of it.</summary>
/// <param name="Drawing">The family.</param>
/// <param name="Who">The member.</param>
/// <param name="Back">True for ancestors.</param>
public sealed record FamilyBranch(FamilyDrawing Drawing, Kin Who, bool Back)
{
    /// <summary>What flowed there.</summary>
    public IReadOnlyList<FamilyFlow> Flows => [.. Back ? Drawing.Before(Who) : Drawing.After(Who)];

    /// <summary>The other end of a flow.</summary>
    public Kin Other(FamilyFlow flow) => Back ? flow.From : flow.To;
}
