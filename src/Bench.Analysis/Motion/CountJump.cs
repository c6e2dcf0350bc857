using Bench.Analysis.Statistics;

namespace Bench.Analysis.Motion;

/// <summary>
/// Greatest jump of the count that persists and that speed and time do not explain (C6). A jump must show both across a
/// few readings, with one speed before and after, and across many; the lesser counts. Across many, the foremost readings
/// are compared: over a contaminated arc the count lags and recovers, but its freshest readings stay on the line. So
/// neither a lag, which recovers, nor a change of speed, which is no step, is taken for a jump.
/// </summary>
internal static class CountJump
{
    /// <summary>Readings on each side of the short comparison.</summary>
    public const int Short = 8;

    /// <summary>Readings on each side of the long comparison, where there are so many.</summary>
    public const int Long = 32;

    /// <summary>Least readings on each side of the long comparison.</summary>
    public const int LeastLong = 16;

    /// <summary>Magnitude of the greatest jump in counts; null when the steady part is too short.</summary>
    public static double? Greatest(MoveCourse course)
    {
        int n = course.SteadyLast - course.SteadyFirst + 1;
        if (!course.HasSteady || n < 2 * LeastLong)
        {
            return null;
        }

        double[] t = new double[n];
        double[] y = new double[n];
        for (int i = 0; i < n; i++)
        {
            t[i] = course.Times[course.SteadyFirst + i];
            y[i] = course.Counts[course.SteadyFirst + i];
        }

        double speed = TypicalSpeed(t, y);
        double[] rest = new double[n];
        for (int i = 0; i < n; i++)
        {
            rest[i] = course.Sign * (y[i] - (speed * t[i]));
        }

        double greatest = 0;
        for (int i = LeastLong; i <= n - LeastLong; i++)
        {
            double step = ShortStep(t, y, i);
            if (Math.Abs(step) <= greatest)
            {
                continue;
            }

            int before = Math.Min(Long, i);
            int after = Math.Min(Long, n - i);
            double held = course.Sign * (Foremost(rest.AsSpan(i, after)) - Foremost(rest.AsSpan(i - before, before)));
            if (held * step > 0)
            {
                greatest = Math.Max(greatest, Math.Min(Math.Abs(step), Math.Abs(held)));
            }
        }

        return greatest;
    }

    // The ninth decile; between the extremes, so that one wild reading does not decide.
    private static double Foremost(ReadOnlySpan<double> along)
    {
        double[] sorted = along.ToArray();
        Array.Sort(sorted);
        return sorted[(int)(0.9 * (sorted.Length - 1))];
    }

    private static double TypicalSpeed(double[] t, double[] y)
    {
        double[] slopes = new double[t.Length - LeastLong];
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] = (y[i + LeastLong] - y[i]) / (t[i + LeastLong] - t[i]);
        }

        return Robust.Median(slopes);
    }

    // Least squares of y = a + b t + jump on the readings before and from i.
    private static double ShortStep(double[] t, double[] y, int i)
    {
        ReadOnlySpan<double> t0 = t.AsSpan(i - Short, Short);
        ReadOnlySpan<double> y0 = y.AsSpan(i - Short, Short);
        ReadOnlySpan<double> t1 = t.AsSpan(i, Short);
        ReadOnlySpan<double> y1 = y.AsSpan(i, Short);
        double mt0 = Mean(t0), mt1 = Mean(t1), my0 = Mean(y0), my1 = Mean(y1);
        double sxx = 0;
        double sxy = 0;
        for (int k = 0; k < Short; k++)
        {
            sxx += ((t0[k] - mt0) * (t0[k] - mt0)) + ((t1[k] - mt1) * (t1[k] - mt1));
            sxy += ((t0[k] - mt0) * (y0[k] - my0)) + ((t1[k] - mt1) * (y1[k] - my1));
        }

        return my1 - my0 - (sxy / sxx * (mt1 - mt0));
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        double sum = 0;
        foreach (double v in values)
        {
            sum += v;
        }

        return sum / values.Length;
    }
}
