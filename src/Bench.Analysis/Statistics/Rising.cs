using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Bench.Analysis.Statistics;

/// <summary>Places in values that rise.</summary>
internal static class Rising
{
    /// <summary>Whether no value lies below the one before it.</summary>
    /// <param name="values">Any number, none NaN.</param>
    public static bool IsRising(ReadOnlySpan<double> values)
    {
        ref double first = ref MemoryMarshal.GetReference(values);
        Vector256<double> falls = Vector256<double>.Zero;
        int i = 1;
        for (; i <= values.Length - 4; i += 4)
        {
            falls |= Vector256.LessThan(Vector256.LoadUnsafe(ref first, (nuint)i), Vector256.LoadUnsafe(ref first, (nuint)i - 1));
        }

        bool rising = falls.ExtractMostSignificantBits() == 0;
        for (; i < values.Length; i++)
        {
            rising &= values[i] >= values[i - 1];
        }

        return rising;
    }

    /// <summary>Index of the first value not below a mark; their number when all are.</summary>
    public static int FirstFrom(ReadOnlySpan<double> rising, double mark)
    {
        int low = 0;
        int high = rising.Length;
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            (low, high) = rising[middle] < mark ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>Index of the first value above a mark; their number when none is.</summary>
    public static int FirstAfter(ReadOnlySpan<double> rising, double mark)
    {
        int low = 0;
        int high = rising.Length;
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            (low, high) = rising[middle] <= mark ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
