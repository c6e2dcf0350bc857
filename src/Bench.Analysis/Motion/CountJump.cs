using System.Buffers;
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

        ReadOnlySpan<double> t = course.Times.Slice(course.SteadyFirst, n);
        ReadOnlySpan<double> y = course.Counts.Slice(course.SteadyFirst, n);
        double speed = TypicalSpeed(t, y);
        double greatest = 0;
        Span<double> steps = stackalloc double[Vector256<double>.Count];
        for (int i = LeastLong; i <= n - LeastLong; i += steps.Length)
        {
            // The last places reach beyond the end of the long comparison, which the short one leaves room for.
            Vector256<double> four = ShortSteps(t, y, i);
            if (!Vector256.GreaterThanAny(Vector256.Abs(four), Vector256.Create(greatest)))
            {
                continue;
            }

            four.CopyTo(steps);
            for (int k = 0; k < steps.Length && i + k <= n - LeastLong; k++)
            {
                greatest = With(greatest, steps[k], course, speed, t, y, i + k);
            }
        }

        return greatest;
    }

    // The greatest so far with the jump before reading i.
    private static double With(
        double greatest, double step, MoveCourse course, double speed, ReadOnlySpan<double> t, ReadOnlySpan<double> y, int i)
    {
        if (Math.Abs(step) <= greatest)
        {
            return greatest;
        }

        int before = Math.Min(Long, i);
        int after = Math.Min(Long, t.Length - i);
        double held = course.Sign
            * (Foremost(course.Sign, speed, t.Slice(i, after), y.Slice(i, after)) - Foremost(course.Sign, speed, t.Slice(i - before, before), y.Slice(i - before, before)));
        return held * step > 0 ? Math.Max(greatest, Math.Min(Math.Abs(step), Math.Abs(held))) : greatest;
    }

    // The ninth decile of what lies ahead of the speed; between the extremes, so that one wild reading does not decide.
    private static double Foremost(int sign, double speed, ReadOnlySpan<double> t, ReadOnlySpan<double> y)
    {
        // The greatest few in order, the least of them first.
        Span<double> few = stackalloc double[Long];
        few = few[..(t.Length - (int)(0.9 * (t.Length - 1)))];
        few.Fill(double.NegativeInfinity);
        for (int i = 0; i < t.Length; i++)
        {
            double along = sign * (y[i] - (speed * t[i]));
            if (along > few[0])
            {
                int k = 0;
                for (; k + 1 < few.Length && few[k + 1] < along; k++)
                {
                    few[k] = few[k + 1];
                }

                few[k] = along;
            }
        }

        return few[0];
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

    // Least squares of y = a + b t + jump on the readings before and from i, i + 1, i + 2 and i + 3.
    private static Vector256<double> ShortSteps(ReadOnlySpan<double> t, ReadOnlySpan<double> y, int i)
    {
        Vector256<double> mt0 = Mean(t, i - Short), mt1 = Mean(t, i), my0 = Mean(y, i - Short), my1 = Mean(y, i);
        Vector256<double> sxx = Vector256<double>.Zero;
        Vector256<double> sxy = Vector256<double>.Zero;
        for (int k = 0; k < Short; k++)
        {
            Vector256<double> d0 = At(t, i - Short + k) - mt0;
            Vector256<double> d1 = At(t, i + k) - mt1;
            sxx += (d0 * d0) + (d1 * d1);
            sxy += (d0 * (At(y, i - Short + k) - my0)) + (d1 * (At(y, i + k) - my1));
        }

        return my1 - my0 - (sxy / sxx * (mt1 - mt0));
    }

    private static Vector256<double> Mean(ReadOnlySpan<double> values, int from)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        for (int k = 0; k < Short; k++)
        {
            sum += At(values, from + k);
        }

        return sum / Short;
    }

    private static Vector256<double> At(ReadOnlySpan<double> values, int from) => Vector256.Create(values.Slice(from, 4));
}
