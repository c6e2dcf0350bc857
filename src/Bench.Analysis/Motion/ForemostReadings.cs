using System.Buffers;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Bench.Analysis.Motion;

/// <summary>
/// The ninth decile of what lies ahead of a speed, over stretches of readings; between the extremes, so that one wild reading does
/// not decide.
/// </summary>
internal sealed class ForemostReadings : IDisposable
{
    /// <summary>Readings in a long stretch.</summary>
    public const int Long = 32;

    private readonly double[] _ahead;

    /// <summary>By the first reading of a long stretch; NaN until it is asked for.</summary>
    private readonly double[] _long;
    private readonly int _n;

    /// <summary>Of readings in order of time.</summary>
    /// <param name="sign">Direction of travel, +1 or -1.</param>
    /// <param name="speed">The speed, counts per second, signed.</param>
    /// <param name="t">Times, seconds.</param>
    /// <param name="y">Counts.</param>
    public ForemostReadings(int sign, double speed, ReadOnlySpan<double> t, ReadOnlySpan<double> y)
    {
        _n = t.Length;
        _ahead = ArrayPool<double>.Shared.Rent(_n);
        _long = ArrayPool<double>.Shared.Rent(_n);
        _long.AsSpan(0, _n).Fill(double.NaN);
        int i = 0;
        for (; i <= _n - Vector256<double>.Count; i += Vector256<double>.Count)
        {
            (sign * (Vector256.Create(y[i..]) - (speed * Vector256.Create(t[i..])))).CopyTo(_ahead, i);
        }

        for (; i < _n; i++)
        {
            _ahead[i] = sign * (y[i] - (speed * t[i]));
        }
    }

    /// <summary>Of one stretch.</summary>
    /// <param name="first">Its first reading.</param>
    /// <param name="readings">How many there are, at most <see cref="Long"/>.</param>
    public double Of(int first, int readings)
    {
        // The greatest few in order, the least of them first.
        Span<double> few = stackalloc double[Long];
        few = few[..Rank(readings)];
        few.Fill(double.NegativeInfinity);
        foreach (double ahead in _ahead.AsSpan(first, readings))
        {
            if (ahead > few[0])
            {
                int k = 0;
                for (; k + 1 < few.Length && few[k + 1] < ahead; k++)
                {
                    few[k] = few[k + 1];
                }

                few[k] = ahead;
            }
        }

        return few[0];
    }

    /// <summary>Of eight long stretches, the first from a reading and the others each one later.</summary>
    public Vector512<double> OfLong(int first)
    {
        Span<double> known = _long.AsSpan(first, Vector512<double>.Count);
        Vector512<double> foremost = Vector512.Create<double>(known);
        if (Vector512.EqualsAll(foremost, foremost))
        {
            return foremost;
        }

        // Each value is put in its place among the five greatest: what it displaces goes on to the next.
        ref double ahead = ref MemoryMarshal.GetReference(_ahead.AsSpan(first, Long + Vector512<double>.Count - 1));
        Vector512<double> a = Vector512.Create(double.NegativeInfinity), b = a, c = a, d = a, e = a;
        for (nuint k = 0; k < Long; k++)
        {
            Vector512<double> v = Vector512.LoadUnsafe(ref ahead, k);
            (a, v) = (Vector512.MaxNative(a, v), Vector512.MinNative(a, v));
            (b, v) = (Vector512.MaxNative(b, v), Vector512.MinNative(b, v));
            (c, v) = (Vector512.MaxNative(c, v), Vector512.MinNative(c, v));
            (d, v) = (Vector512.MaxNative(d, v), Vector512.MinNative(d, v));
            e = Vector512.MaxNative(e, v);
        }

        e.CopyTo(known);
        return e;
    }

    /// <summary>Gives the room back.</summary>
    public void Dispose()
    {
        ArrayPool<double>.Shared.Return(_ahead);
        ArrayPool<double>.Shared.Return(_long);
    }

    // The ninth decile from above; the fifth of a long stretch.
    private static int Rank(int readings) => readings - (int)(0.9 * (readings - 1));
}
