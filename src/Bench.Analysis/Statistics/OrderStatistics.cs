using System.Buffers;
using System.Numerics;
using System.Runtime.Intrinsics;

namespace Bench.Analysis.Statistics;

/// <summary>
/// Values by rank without sorting all of them: a sample brackets the rank, one pass counts what lies below and keeps what
/// lies inside (Floyd and Rivest 1975), and the few kept are partitioned (Hoare 1961, with the middle of three as pivot).
/// Exact: should the bracket miss, all are partitioned.
/// </summary>
internal static class OrderStatistics
{
    private const int Few = 16;

    /// <summary>Below this number a sample costs more than it saves.</summary>
    private const int Many = 512;

    /// <summary>Half width of the bracket in standard deviations of the sample's rank.</summary>
    private const double BracketSigmas = 2.6;

    /// <summary>The value of a rank.</summary>
    /// <param name="values">Finite values; left as they are.</param>
    /// <param name="rank">Rank from 0.</param>
    public static double At(ReadOnlySpan<double> values, int rank) => Neighbours(values, rank).Upper;

    /// <summary>Median; the mean of the two middle values when their number is even.</summary>
    /// <param name="values">At least one, all finite; left as they are.</param>
    public static double Median(ReadOnlySpan<double> values)
    {
        (double lower, double upper) = Neighbours(values, values.Length / 2);
        return values.Length % 2 == 1 ? upper : (lower + upper) / 2;
    }

    /// <summary>Moves the value of a rank to its place: no value before it is greater, none after it smaller.</summary>
    /// <param name="values">Finite values; rearranged.</param>
    /// <param name="rank">Rank from 0.</param>
    /// <returns>The value.</returns>
    public static double Select(Span<double> values, int rank)
    {
        int low = 0;
        int high = values.Length - 1;
        while (high - low > Few)
        {
            double pivot = MiddleOfThree(values[low], values[low + ((high - low) / 2)], values[high]);
            int i = low;
            int j = high;
            while (i <= j)
            {
                while (values[i] < pivot)
                {
                    i++;
                }

                while (values[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            // Left: low to j, right: i to high, between them the pivot.
            if (rank <= j)
            {
                high = j;
            }
            else if (rank >= i)
            {
                low = i;
            }
            else
            {
                return values[rank];
            }
        }

        values[low..(high + 1)].Sort();
        return values[rank];
    }

    // The values of a rank and of the one before; of rank 0 twice the least.
    private static (double Lower, double Upper) Neighbours(ReadOnlySpan<double> values, int rank)
    {
        double[] kept = ArrayPool<double>.Shared.Rent(values.Length + Vector256<double>.Count);
        try
        {
            int first = 0;
            int count = values.Length;
            if (count >= Many)
            {
                (double low, double high) = Bracket(values, rank, kept);
                (int atMostLow, int inside) = Keep(values, low, high, kept);
                if (rank > atMostLow && rank < atMostLow + inside)
                {
                    if (inside >= Many && inside < count / 2)
                    {
                        return Neighbours(kept.AsSpan(0, inside), rank - atMostLow);
                    }

                    first = atMostLow;
                    count = inside;
                }
                else if (Tied(values, low, high, rank, atMostLow, inside) is double tied)
                {
                    return (tied, tied);
                }
                else
                {
                    values.CopyTo(kept);
                }
            }
            else
            {
                values.CopyTo(kept);
            }

            Span<double> few = kept.AsSpan(0, count);
            int place = rank - first;
            double upper = Select(few, place);
            double lower = place == 0 ? upper : few[0];
            foreach (double v in few[..place])
            {
                lower = Math.Max(lower, v);
            }

            return (lower, upper);
        }
        finally
        {
            ArrayPool<double>.Shared.Return(kept);
        }
    }

    // Two values of a sample between which the rank lies, most probably.
    private static (double Low, double High) Bracket(ReadOnlySpan<double> values, int rank, double[] spare)
    {
        int size = Math.Clamp(values.Length / 32, 64, 1024);
        Span<double> sample = spare.AsSpan(0, size);
        double stride = values.Length / (double)size;
        for (int i = 0; i < size; i++)
        {
            sample[i] = values[(int)(i * stride)];
        }

        double share = (rank + 0.5) / values.Length;
        double half = (BracketSigmas * Math.Sqrt(size * share * (1 - share))) + 1;
        int low = (int)Math.Floor((share * size) - half);
        int high = (int)Math.Ceiling((share * size) + half);
        return (
            low < 0 ? double.NegativeInfinity : Select(sample, low),
            high >= size ? double.PositiveInfinity : Select(sample, high));
    }

    // For each set of four lanes, the halves of its lanes in order, then halves of any.
    private static ReadOnlySpan<int> Front =>
    [
        0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 0, 0, 0, 0,
        4, 5, 0, 0, 0, 0, 0, 0, 0, 1, 4, 5, 0, 0, 0, 0, 2, 3, 4, 5, 0, 0, 0, 0, 0, 1, 2, 3, 4, 5, 0, 0,
        6, 7, 0, 0, 0, 0, 0, 0, 0, 1, 6, 7, 0, 0, 0, 0, 2, 3, 6, 7, 0, 0, 0, 0, 0, 1, 2, 3, 6, 7, 0, 0,
        4, 5, 6, 7, 0, 0, 0, 0, 0, 1, 4, 5, 6, 7, 0, 0, 2, 3, 4, 5, 6, 7, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7,
    ];

    // Counts the values up to low and keeps those strictly between low and high.
    private static (int AtMostLow, int Inside) Keep(ReadOnlySpan<double> values, double low, double high, double[] kept)
    {
        Vector256<double> lows = Vector256.Create(low);
        Vector256<double> highs = Vector256.Create(high);
        Vector256<long> under = Vector256<long>.Zero;
        int inside = 0;
        int i = 0;
        for (; i <= values.Length - 4; i += 4)
        {
            Vector256<double> v = Vector256.Create(values.Slice(i, 4));
            Vector256<double> atMost = Vector256.LessThanOrEqual(v, lows);
            under -= atMost.AsInt64();

            // All four are written, those to keep in front; whether any is to keep is nothing a processor could foresee.
            uint between = Vector256.AndNot(Vector256.LessThan(v, highs), atMost).ExtractMostSignificantBits();
            Vector256<int> order = Vector256.Create(Front.Slice((int)between * 8, 8));
            Vector256.ShuffleNative(v.AsInt32(), order).AsDouble().CopyTo(kept, inside);
            inside += BitOperations.PopCount(between);
        }

        int atMostLow = (int)Vector256.Sum(under);
        for (; i < values.Length; i++)
        {
            atMostLow += values[i] <= low ? 1 : 0;
            if (values[i] > low && values[i] < high)
            {
                kept[inside++] = values[i];
            }
        }

        return (atMostLow, inside);
    }

    // A meter's resolution makes many values equal; then an end of the bracket may be the value of the rank and the one before.
    private static double? Tied(ReadOnlySpan<double> values, double low, double high, int rank, int atMostLow, int inside)
    {
        if (rank < atMostLow)
        {
            return rank > Count(values, low, below: true) ? low : null;
        }

        int belowHigh = atMostLow + inside;
        return rank > belowHigh && rank < belowHigh + Count(values, high, below: false) ? high : null;
    }

    private static int Count(ReadOnlySpan<double> values, double mark, bool below)
    {
        int n = 0;
        foreach (double v in values)
        {
            n += (below ? v < mark : v == mark) ? 1 : 0;
        }

        return n;
    }

    private static double MiddleOfThree(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
