using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Bench.Analysis.Statistics;

/// <summary>Parts values at two marks, several at a time and without a branch that depends on them: whether one is to keep is nothing a processor could foresee.</summary>
internal static class Sieve
{
    /// <summary>Room that is needed beyond the values kept.</summary>
    public const int Spare = 8;

    // For each set of four lanes, the halves of its lanes in order, then halves of any.
    private static ReadOnlySpan<int> Front =>
    [
        0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 2, 3, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 0, 0, 0, 0,
        4, 5, 0, 0, 0, 0, 0, 0, 0, 1, 4, 5, 0, 0, 0, 0, 2, 3, 4, 5, 0, 0, 0, 0, 0, 1, 2, 3, 4, 5, 0, 0,
        6, 7, 0, 0, 0, 0, 0, 0, 0, 1, 6, 7, 0, 0, 0, 0, 2, 3, 6, 7, 0, 0, 0, 0, 0, 1, 2, 3, 6, 7, 0, 0,
        4, 5, 6, 7, 0, 0, 0, 0, 0, 1, 4, 5, 6, 7, 0, 0, 2, 3, 4, 5, 6, 7, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7,
    ];

    /// <summary>Keeps the values strictly between two marks, in order, and counts those up to the lower.</summary>
    /// <param name="values">Any number; NaN is neither kept nor counted.</param>
    /// <param name="low">The lower mark.</param>
    /// <param name="high">The upper mark.</param>
    /// <param name="kept">Takes them; as long as the values and <see cref="Spare"/> more, whatever is kept.</param>
    /// <returns>How many values are not above the lower mark, and how many were kept.</returns>
    public static (int AtMostLow, int Kept) Between(ReadOnlySpan<double> values, double low, double high, Span<double> kept)
    {
        Vector256<double> lows = Vector256.Create(low);
        Vector256<double> highs = Vector256.Create(high);
        Vector256<long> under = Vector256<long>.Zero;
        ref double from = ref MemoryMarshal.GetReference(values);
        ref double to = ref MemoryMarshal.GetReference(kept[..(values.Length + Spare)]);
        int atMostLow = 0;
        int inside = 0;
        int i = 0;
        if (Avx512F.IsSupported)
        {
            (Vector512<double> lows8, Vector512<double> highs8) = (Vector512.Create(low), Vector512.Create(high));
            for (; i <= values.Length - 8; i += 8)
            {
                Vector512<double> v = Vector512.LoadUnsafe(ref from, (nuint)i);
                Vector512<double> between = Vector512.LessThan(v, highs8) & Vector512.GreaterThan(v, lows8);
                Avx512F.Compress(Vector512<double>.Zero, between, v).StoreUnsafe(ref to, (nuint)inside);
                inside += BitOperations.PopCount(between.ExtractMostSignificantBits());
                atMostLow += BitOperations.PopCount(Vector512.LessThanOrEqual(v, lows8).ExtractMostSignificantBits());
            }
        }

        for (; i <= values.Length - 4; i += 4)
        {
            Vector256<double> v = Vector256.LoadUnsafe(ref from, (nuint)i);
            Vector256<double> atMost = Vector256.LessThanOrEqual(v, lows);
            under -= atMost.AsInt64();

            // All are written, those to keep in front.
            uint between = (Vector256.LessThan(v, highs) & Vector256.GreaterThan(v, lows)).ExtractMostSignificantBits();
            ToFront(v, Order(between)).StoreUnsafe(ref to, (nuint)inside);
            inside += BitOperations.PopCount(between);
        }

        atMostLow += (int)Vector256.Sum(under);
        for (; i < values.Length; i++)
        {
            double v = values[i];
            atMostLow += v <= low ? 1 : 0;
            Unsafe.Add(ref to, inside) = v;
            inside += v > low && v < high ? 1 : 0;
        }

        return (atMostLow, inside);
    }

    /// <summary>The order that brings some lanes of four to the front.</summary>
    /// <param name="lanes">A bit for each lane, the first lowest.</param>
    public static Vector256<int> Order(uint lanes) => Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(Front), lanes * 8);

    /// <summary>Lanes in an <see cref="Order"/>; behind those in front lie any.</summary>
    public static Vector256<double> ToFront(Vector256<double> values, Vector256<int> order) =>
        Vector256.ShuffleNative(values.AsInt32(), order).AsDouble();

    /// <summary>Counts the values equal to either of two marks.</summary>
    public static (int Lows, int Highs) Equal(ReadOnlySpan<double> values, double low, double high)
    {
        Vector256<double> lows = Vector256.Create(low);
        Vector256<double> highs = Vector256.Create(high);
        Vector256<long> low4 = Vector256<long>.Zero;
        Vector256<long> high4 = Vector256<long>.Zero;
        ref double from = ref MemoryMarshal.GetReference(values);
        int i = 0;
        for (; i <= values.Length - 4; i += 4)
        {
            Vector256<double> v = Vector256.LoadUnsafe(ref from, (nuint)i);
            low4 -= Vector256.Equals(v, lows).AsInt64();
            high4 -= Vector256.Equals(v, highs).AsInt64();
        }

        (int atLow, int atHigh) = ((int)Vector256.Sum(low4), (int)Vector256.Sum(high4));
        for (; i < values.Length; i++)
        {
            atLow += values[i] == low ? 1 : 0;
            atHigh += values[i] == high ? 1 : 0;
        }

        return (atLow, atHigh);
    }

    /// <summary>Counts the values below a mark and gives the greatest of them, negative infinity where there is none.</summary>
    public static (int Count, double Greatest) Below(ReadOnlySpan<double> values, double mark)
    {
        Vector256<double> marks = Vector256.Create(mark);
        Vector256<double> none = Vector256.Create(double.NegativeInfinity);
        Vector256<double> greatest4 = none;
        Vector256<long> count4 = Vector256<long>.Zero;
        ref double from = ref MemoryMarshal.GetReference(values);
        int i = 0;
        for (; i <= values.Length - 4; i += 4)
        {
            Vector256<double> v = Vector256.LoadUnsafe(ref from, (nuint)i);
            Vector256<double> below = Vector256.LessThan(v, marks);
            count4 -= below.AsInt64();
            greatest4 = Vector256.MaxNative(greatest4, Vector256.ConditionalSelect(below, v, none));
        }

        int count = (int)Vector256.Sum(count4);
        double greatest = Math.Max(Math.Max(greatest4[0], greatest4[1]), Math.Max(greatest4[2], greatest4[3]));
        for (; i < values.Length; i++)
        {
            count += values[i] < mark ? 1 : 0;
            greatest = values[i] < mark ? Math.Max(greatest, values[i]) : greatest;
        }

        return (count, greatest);
    }
}
