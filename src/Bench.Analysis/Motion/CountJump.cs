using System.Buffers;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
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
    public const int Long = ForemostReadings.Long;

    /// <summary>Least readings on each side of the long comparison.</summary>
    public const int LeastLong = 16;

    /// <summary>Places looked at together.</summary>
    private const int Lanes = 8;

    /// <summary>Magnitude of the greatest jump in counts; null when the steady part is too short.</summary>
    public static double? Greatest(MoveCourse course)
    {
        int n = course.SteadyLast - course.SteadyFirst + 1;
        if (!course.HasSteady || n < 2 * LeastLong)
        {
            return null;
        }

        ReadOnlySpan<double> t = course.Times.Slice(course.SteadyFirst, n);
        ReadOnlySpan<double> y = course.Counts.Slice(course.SteadyFirst, n);
        using ForemostReadings foremost = new(course.Sign, TypicalSpeed(t, y), t, y);
        double greatest = 0;
        for (int i = LeastLong; i <= n - LeastLong; i += Lanes)
        {
            // The last places reach beyond the end of the long comparison, which the short one leaves room for.
            Vector512<double> steps = ShortSteps(t, y, i);
            if (Vector512.GreaterThanAny(Vector512.Abs(steps), Vector512.Create(greatest)))
            {
                bool whole = i >= Long && i + Lanes - 1 + Long <= n;
                Vector512<double> ahead = whole ? foremost.OfLong(i) - foremost.OfLong(i - Long) : NearTheEnds(foremost, i, n);
                greatest = Math.Max(greatest, Greatest(steps, course.Sign * ahead));
            }
        }

        return greatest;
    }

    // What the foremost readings say where one side or both have fewer; nothing beyond the last place.
    private static Vector512<double> NearTheEnds(ForemostReadings foremost, int first, int n)
    {
        Vector512<double> ahead = Vector512<double>.Zero;
        for (int k = 0; k < Lanes && first + k <= n - LeastLong; k++)
        {
            int i = first + k;
            int before = Math.Min(Long, i);
            ahead = ahead.WithElement(k, foremost.Of(i, Math.Min(Long, n - i)) - foremost.Of(i - before, before));
        }

        return ahead;
    }

    // The greatest jump shown both across a few readings and across many; the lesser counts.
    private static double Greatest(Vector512<double> steps, Vector512<double> held)
    {
        Vector512<double> lesser = Vector512.Min(Vector512.Abs(steps), Vector512.Abs(held));
        Vector512<double> shown = Vector512.ConditionalSelect(Vector512.GreaterThan(held * steps, Vector512<double>.Zero), lesser, Vector512<double>.Zero);
        Vector256<double> four = Vector256.Max(shown.GetLower(), shown.GetUpper());
        return Math.Max(Math.Max(four[0], four[1]), Math.Max(four[2], four[3]));
    }

    private static double TypicalSpeed(ReadOnlySpan<double> t, ReadOnlySpan<double> y)
    {
        int n = t.Length - LeastLong;
        double[] slopes = ArrayPool<double>.Shared.Rent(n);
        int i = 0;
        for (; i <= n - 4; i += 4)
        {
            Vector256<double> dy = At(y, i + LeastLong) - At(y, i);
            (dy / (At(t, i + LeastLong) - At(t, i))).CopyTo(slopes, i);
        }

        for (; i < n; i++)
        {
            slopes[i] = (y[i + LeastLong] - y[i]) / (t[i + LeastLong] - t[i]);
        }

        double speed = Robust.Median(slopes.AsSpan(0, n));
        ArrayPool<double>.Shared.Return(slopes);
        return speed;
    }

    // Least squares of y = a + b t + jump on the readings before and from i, i + 1, and so on.
    private static Vector512<double> ShortSteps(ReadOnlySpan<double> t, ReadOnlySpan<double> y, int i)
    {
        const int Reach = (2 * Short) + Lanes - 1;
        ref double ts = ref MemoryMarshal.GetReference(t.Slice(i - Short, Reach));
        ref double ys = ref MemoryMarshal.GetReference(y.Slice(i - Short, Reach));
        Vector512<double> mt0 = Mean(ref ts, 0), mt1 = Mean(ref ts, Short), my0 = Mean(ref ys, 0), my1 = Mean(ref ys, Short);
        Vector512<double> sxx = Vector512<double>.Zero;
        Vector512<double> sxy = Vector512<double>.Zero;
        for (nuint k = 0; k < Short; k++)
        {
            Vector512<double> d0 = Vector512.LoadUnsafe(ref ts, k) - mt0;
            Vector512<double> d1 = Vector512.LoadUnsafe(ref ts, k + Short) - mt1;
            sxx += (d0 * d0) + (d1 * d1);
            sxy += (d0 * (Vector512.LoadUnsafe(ref ys, k) - my0)) + (d1 * (Vector512.LoadUnsafe(ref ys, k + Short) - my1));
        }

        return my1 - my0 - (sxy / sxx * (mt1 - mt0));
    }

    private static Vector512<double> Mean(ref double values, nuint from)
    {
        Vector512<double> sum = Vector512<double>.Zero;
        for (nuint k = 0; k < Short; k++)
        {
            sum += Vector512.LoadUnsafe(ref values, from + k);
        }

        return sum / Short;
    }

    private static Vector256<double> At(ReadOnlySpan<double> values, int from) => Vector256.Create(values.Slice(from, 4));
}
