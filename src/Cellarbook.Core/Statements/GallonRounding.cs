using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>
/// Whole gallons that balance. Every line starts as its own half-up figure, the closing as the half-up figure of the true stock. While the
/// opening + in − out is not the closing, one line moves by a gallon: the one that ends nearest its true value, ties to the earlier line; lines
/// that must agree with another never move, those tied to a tax return only last. If nothing may move, the closing takes the difference and the
/// next period settles it. The rule is ours; no published rule for rounding report lines was found.
/// </summary>
internal static class GallonRounding
{
    public static (long[] In, long[] Out, long Closing) Balance(UsForm form, long opening, IReadOnlyList<(FormLine Line, Volume Volume)> ins, IReadOnlyList<(FormLine Line, Volume Volume)> outs, Volume closing)
    {
        var gallonsIn = ins.Select(line => form.WholeGallons(line.Volume)).ToArray();
        var gallonsOut = outs.Select(line => form.WholeGallons(line.Volume)).ToArray();
        var end = form.WholeGallons(closing);
        while (true)
        {
            var off = opening + gallonsIn.Sum() - gallonsOut.Sum() - end;
            if (off == 0) return (gallonsIn, gallonsOut, end);
            var best = Nearest(form, Nudging.Any, off, ins, gallonsIn, outs, gallonsOut) ?? Nearest(form, Nudging.Last, off, ins, gallonsIn, outs, gallonsOut);
            if (best is not { } move) return (gallonsIn, gallonsOut, end + off);
            move.Column[move.Index] = move.Gallons;
        }
    }

    private static (long[] Column, int Index, long Gallons)? Nearest(UsForm form, Nudging tier, long off, IReadOnlyList<(FormLine Line, Volume Volume)> ins, long[] gallonsIn, IReadOnlyList<(FormLine Line, Volume Volume)> outs, long[] gallonsOut)
    {
        (long[], int, long)? best = null;
        Int128 least = 2 * UsForm.One;
        foreach (var (lines, column, step) in new[] { (ins, gallonsIn, off > 0 ? -1 : 1), (outs, gallonsOut, off > 0 ? 1 : -1) })
            for (var i = 0; i < column.Length; i++)
            {
                if (lines[i].Line.MayMove != tier || column[i] + step < 0) continue;
                var error = Int128.Abs((column[i] + step) * UsForm.One - form.Exact(lines[i].Volume));
                if (error >= least) continue;
                least = error;
                best = (column, i, column[i] + step);
            }
        return best;
    }
}
