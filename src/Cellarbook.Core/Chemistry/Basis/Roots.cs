namespace Cellarbook.Core.Chemistry;

/// <summary>A curve whose crossing of zero is sought. Implemented by small structs, so that solving allocates nothing.</summary>
internal interface ICurve
{
    /// <summary>Height of the curve at <paramref name="x"/>.</summary>
    double At(double x);
}

/// <summary>Root finding in a bracket (Chandrupatla 1997): bisection with inverse quadratic steps where they are safe.</summary>
internal static class Roots
{
    /// <summary>The root between two ends, or NaN when the curve does not change sign between them.</summary>
    public static double Between<TCurve>(in TCurve curve, double low, double high)
        where TCurve : struct, ICurve
    {
        double a = high, b = low, c = low;
        double fa = curve.At(a), fb = curve.At(b), fc = fb;
        if (fa == 0)
        {
            return a;
        }

        if (fb == 0)
        {
            return b;
        }

        if (!(fa < 0 != fb < 0) || !double.IsFinite(fa) || !double.IsFinite(fb))
        {
            return double.NaN;
        }

        double t = 0.5;
        for (int step = 0; step < 100; step++)
        {
            double x = a + (t * (b - a));
            double fx = curve.At(x);
            if (fx < 0 == fa < 0)
            {
                (c, fc) = (a, fa);
            }
            else
            {
                (c, fc) = (b, fb);
                (b, fb) = (a, fa);
            }

            (a, fa) = (x, fx);
            double best = Math.Abs(fb) < Math.Abs(fa) ? b : a;
            double limit = ((2e-16 * Math.Abs(best)) + 1e-15) / Math.Abs(b - a);
            if (limit > 0.5 || fa == 0)
            {
                return best;
            }

            double xi = (a - b) / (c - b), phi = (fa - fb) / (fc - fb);
            t = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                ? (fa / (fb - fa) * (fc / (fb - fc))) + ((c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb)))
                : 0.5;
            t = Math.Clamp(t, limit, 1 - limit);
        }

        return Math.Abs(fb) < Math.Abs(fa) ? b : a;
    }
}
