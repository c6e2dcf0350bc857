using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Bench.Analysis.Statistics;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>
/// Takes the meter rows of samples apart into columns. Every sample is written where the next row goes, and stays there if it
/// is one: which are is nothing a processor could foresee.
/// </summary>
internal static class RowColumns
{
    /// <summary>Room that columns need beyond the samples.</summary>
    public const int Spare = 4;

    /// <summary>Volts or amperes beyond which a number is no meter's reading; sums and squares of what is left stay finite.</summary>
    private const double Most = 1e9;

    /// <summary>Where the index lies in the last eight bytes of a sample.</summary>
    private const int IndexByte = 6;

    /// <summary>Takes the rows: samples with a time, a current and a voltage that can be one.</summary>
    /// <param name="samples">Any.</param>
    /// <param name="times">Takes their times, seconds; this and the others as long as the samples and <see cref="Spare"/> more.</param>
    /// <param name="currents">Takes their currents, amperes.</param>
    /// <param name="voltages">Takes their voltages, volts.</param>
    /// <param name="index">Takes the index input, as <see cref="IndexState"/>.</param>
    /// <returns>How many rows there are, and whether all samples with a current are among them.</returns>
    public static (int Rows, bool Complete) Take(
        ReadOnlySpan<Sample> samples, Span<double> times, Span<double> currents, Span<double> voltages, Span<byte> index)
    {
        int room = samples.Length + Spare;
        ref double t = ref MemoryMarshal.GetReference(times[..room]);
        ref double c = ref MemoryMarshal.GetReference(currents[..room]);
        ref double v = ref MemoryMarshal.GetReference(voltages[..room]);
        ref byte x = ref MemoryMarshal.GetReference(index[..room]);
        int rows = 0;
        bool complete = true;
        int i = 0;
        if (Avx2.IsSupported)
        {
            (rows, complete) = TakeFours(samples, ref t, ref c, ref v, ref x);
            i = samples.Length & ~3;
        }

        for (; i < samples.Length; i++)
        {
            ref readonly Sample s = ref samples[i];
            bool good = double.IsFinite(s.TimeS) & Math.Abs(s.CurrentA) <= Most & Math.Abs(s.VoltageV) <= Most;
            Unsafe.Add(ref t, rows) = s.TimeS;
            Unsafe.Add(ref c, rows) = s.CurrentA;
            Unsafe.Add(ref v, rows) = s.VoltageV;
            Unsafe.Add(ref x, rows) = (byte)s.Index;
            complete &= good | !s.HasMeters;
            rows += good ? 1 : 0;
        }

        return (rows, complete);
    }

    // Four samples at a time: as four rows of time, current, voltage and the rest, which are turned on their side.
    private static (int Rows, bool Complete) TakeFours(ReadOnlySpan<Sample> samples, ref double t, ref double c, ref double v, ref byte x)
    {
        ref double from = ref Unsafe.As<Sample, double>(ref MemoryMarshal.GetReference(samples));
        Vector256<double> most = Vector256.Create(Most), finite = Vector256.Create(double.MaxValue);
        Vector256<double> missed = Vector256<double>.Zero;
        Vector256<byte> pick = Vector256.Create(Vector128.Create(IndexByte, IndexByte + 8, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255).AsByte());
        int rows = 0;
        for (int i = 0; i <= samples.Length - 4; i += 4)
        {
            nuint at = (nuint)i * 4;
            Vector256<double> s0 = Vector256.LoadUnsafe(ref from, at), s1 = Vector256.LoadUnsafe(ref from, at + 4);
            Vector256<double> s2 = Vector256.LoadUnsafe(ref from, at + 8), s3 = Vector256.LoadUnsafe(ref from, at + 12);
            Vector256<double> tv01 = Avx.UnpackLow(s0, s1), tv23 = Avx.UnpackLow(s2, s3);
            Vector256<double> cx01 = Avx.UnpackHigh(s0, s1), cx23 = Avx.UnpackHigh(s2, s3);
            Vector256<double> times = Avx.Permute2x128(tv01, tv23, 0x20), voltages = Avx.Permute2x128(tv01, tv23, 0x31);
            Vector256<double> currents = Avx.Permute2x128(cx01, cx23, 0x20), rest = Avx.Permute2x128(cx01, cx23, 0x31);

            Vector256<double> good = Vector256.LessThanOrEqual(Vector256.Abs(times), finite)
                & Vector256.LessThanOrEqual(Vector256.Abs(currents), most) & Vector256.LessThanOrEqual(Vector256.Abs(voltages), most);
            missed |= Vector256.AndNot(Vector256.Equals(currents, currents), good);
            uint lanes = good.ExtractMostSignificantBits();
            Vector256<int> order = Sieve.Order(lanes);
            Sieve.ToFront(times, order).StoreUnsafe(ref t, (nuint)rows);
            Sieve.ToFront(currents, order).StoreUnsafe(ref c, (nuint)rows);
            Sieve.ToFront(voltages, order).StoreUnsafe(ref v, (nuint)rows);
            Vector256<uint> index = Avx2.Shuffle(Sieve.ToFront(rest, order).AsByte(), pick).AsUInt32();
            Unsafe.WriteUnaligned(ref Unsafe.Add(ref x, rows), index[0] | (index[4] << 16));
            rows += BitOperations.PopCount(lanes);
        }

        return (rows, missed.ExtractMostSignificantBits() == 0);
    }
}
