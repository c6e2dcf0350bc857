using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Bench.Analysis.Statistics;

/// <summary>Columns made of columns, several values at a time; to the last bit what a plain loop gives.</summary>
internal static class Elementwise
{
    private static readonly int Lanes = Vector256<double>.Count;

    /// <summary>How far each value lies above the middle of its neighbours: x[i + 1] - (x[i] + x[i + 2])/2.</summary>
    /// <param name="values">At least two.</param>
    /// <param name="bends">Takes them; two fewer.</param>
    public static void Bends(ReadOnlySpan<double> values, Span<double> bends)
    {
        int n = values[2..].Length;
        ref double from = ref MemoryMarshal.GetReference(values);
        ref double to = ref MemoryMarshal.GetReference(bends[..n]);
        int i = 0;
        for (; i <= n - Lanes; i += Lanes)
        {
            Vector256<double> sides = Vector256.LoadUnsafe(ref from, (nuint)i) + Vector256.LoadUnsafe(ref from, (nuint)i + 2);
            (Vector256.LoadUnsafe(ref from, (nuint)i + 1) - (sides * 0.5)).StoreUnsafe(ref to, (nuint)i);
        }

        for (; i < n; i++)
        {
            bends[i] = Bend(values, i);
        }
    }

    /// <summary>One of the <see cref="Bends"/>.</summary>
    public static double Bend(ReadOnlySpan<double> values, int i) => values[i + 1] - ((values[i] + values[i + 2]) * 0.5);

    /// <summary>How far each value lies from a centre: |x[i] - centre|.</summary>
    /// <param name="values">Any number.</param>
    /// <param name="centre">The centre.</param>
    /// <param name="distances">Takes them; as many.</param>
    public static void Distances(ReadOnlySpan<double> values, double centre, Span<double> distances)
    {
        Vector256<double> about = Vector256.Create(centre);
        ref double from = ref MemoryMarshal.GetReference(values);
        ref double to = ref MemoryMarshal.GetReference(distances[..values.Length]);
        int i = 0;
        for (; i <= values.Length - Lanes; i += Lanes)
        {
            Vector256.Abs(Vector256.LoadUnsafe(ref from, (nuint)i) - about).StoreUnsafe(ref to, (nuint)i);
        }

        for (; i < values.Length; i++)
        {
            distances[i] = Math.Abs(values[i] - centre);
        }
    }
}
