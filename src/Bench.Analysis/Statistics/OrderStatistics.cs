using System.Buffers;

namespace Bench.Analysis.Statistics;

/// <summary>
/// Values by rank without sorting all of them: a <see cref="RankBracket"/> leaves few of many, and few are parted at the middle of
/// three until hardly any are left (Hoare 1961). Exact: should the bracket miss, all are parted so.
/// </summary>
internal static class OrderStatistics
{
    /// <summary>So many are sorted.</summary>
    private const int Few = 8;

    /// <summary>Below this number a sample costs more than it saves.</summary>
    private const int Many = 512;

    /// <summary>The value of a rank.</summary>
    /// <param name="values">Any values but NaN; left as they are.</param>
    /// <param name="rank">Rank from 0.</param>
    public static double At(ReadOnlySpan<double> values, int rank) => At(values, rank, rank).Upper;

    /// <summary>Median; the mean of the two middle values when their number is even.</summary>
    /// <param name="values">At least one, all finite; left as they are.</param>
    public static double Median(ReadOnlySpan<double> values)
    {
        int half = values.Length / 2;
        if (values.Length % 2 == 1)
        {
            return At(values, half);
        }

        (double lower, double upper) = At(values, half - 1, half);
        return (lower + upper) / 2;
    }

    // The values of a rank and of one that is the same or follows it.
    private static (double Lower, double Upper) At(ReadOnlySpan<double> values, int lower, int upper)
    {
        if (values.Length >= Many)
        {
            using RankBracket bracket = Bracket(values, upper);
            bracket.Add(values);
            if (bracket.Kept.Length < values.Length / 2)
            {
                if (bracket.At(lower, upper) is { } inside)
                {
                    return inside;
                }

                bracket.AddEnds(values);
                if (bracket.At(lower, upper) is { } ends)
                {
                    return ends;
                }
            }
        }

        double value = Parted(values, upper);
        return (lower == upper ? value : Before(values, value, upper), value);
    }

    private static RankBracket Bracket(ReadOnlySpan<double> values, int rank)
    {
        Span<double> sample = stackalloc double[RankBracket.SampleSize(values.Length)];
        double stride = values.Length / (double)sample.Length;
        for (int i = 0; i < sample.Length; i++)
        {
            sample[i] = values[(int)(i * stride)];
        }

        return new RankBracket(sample, rank, values.Length);
    }

    // The value of the rank before, of a rank above 0 and its value.
    private static double Before(ReadOnlySpan<double> values, double value, int rank)
    {
        (int below, double greatest) = Sieve.Below(values, value);
        return below == rank ? greatest : value;
    }

    private static double Parted(ReadOnlySpan<double> values, int rank)
    {
        int room = values.Length + Sieve.Spare;
        double[] rented = ArrayPool<double>.Shared.Rent(2 * room);
        double found = Parted(values, rank, rented.AsSpan(0, room), rented.AsSpan(room, room));
        ArrayPool<double>.Shared.Return(rented);
        return found;
    }

    private static double Parted(ReadOnlySpan<double> values, int rank, Span<double> room, Span<double> otherRoom)
    {
        while (values.Length > Few)
        {
            double pivot = MiddleOfThree(values[0], values[values.Length / 2], values[^1]);
            (int atMost, int kept) = Sieve.Between(values, pivot, double.PositiveInfinity, room);
            if (rank < atMost)
            {
                (int least, kept) = Sieve.Between(values, double.NegativeInfinity, pivot, room);
                if (rank < least)
                {
                    return double.NegativeInfinity;
                }

                rank -= least;
                if (rank >= kept)
                {
                    return pivot;
                }
            }
            else
            {
                rank -= atMost;
                if (rank >= kept)
                {
                    return double.PositiveInfinity;
                }
            }

            // What is kept is parted next, into the room that the values before it no longer need.
            values = room[..kept];
            Span<double> used = room;
            room = otherRoom;
            otherRoom = used;
        }

        Span<double> few = room[..values.Length];
        values.CopyTo(few);
        few.Sort();
        return few[rank];
    }

    private static double MiddleOfThree(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
