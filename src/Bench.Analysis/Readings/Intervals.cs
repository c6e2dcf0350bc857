using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Bench.Analysis.Statistics;
using Bench.Model.Features;

namespace Bench.Analysis.Readings;

/// <summary>
/// Times between readings, counted by size: 4096 sizes to an octave, so that however long a run is, little is kept of it.
/// Percentiles are known to one part in 8000, the least and the greatest to all their digits.
/// </summary>
internal sealed class Intervals
{
    /// <summary>Bits of a single precision number below its size: it has 23 in an octave.</summary>
    private const int Below = 11;
    private const int OctaveBits = 23 - Below;
    private const int PerOctave = 1 << OctaveBits;

    /// <summary>The octaves that are told apart: from 2^-24 s, 60 ns, to 2^12 s, more than an hour.</summary>
    private const int FirstOctave = -24;
    private const int Octaves = 36;

    /// <summary>The least size, as bits of a single precision number: its exponent is counted from -127.</summary>
    private const int First = (FirstOctave + 127) << 23;

    private const int Last = First + (Octaves << 23) - 1;

    private const int Part = 256;

    private readonly long[]?[] _octaves = new long[]?[Octaves];
    private long _count;
    private double _least = double.PositiveInfinity;
    private double _worst = double.NegativeInfinity;

    /// <summary>Adds one, in seconds; finite.</summary>
    public void Add(double seconds)
    {
        Place(Size((float)seconds))++;
        _count++;
        _least = Math.Min(_least, seconds);
        _worst = Math.Max(_worst, seconds);
    }

    /// <summary>Adds those between instants.</summary>
    /// <param name="times">Seconds, rising.</param>
    public void AddBetween(ReadOnlySpan<double> times)
    {
        Span<int> sizes = stackalloc int[Part];
        for (; times.Length > 1; times = times[Math.Min(Part, times.Length - 1)..])
        {
            Span<int> some = sizes[..Math.Min(Part, times.Length - 1)];
            Measure(times[..(some.Length + 1)], some);
            Count(some);
        }
    }

    /// <summary>What they come to.</summary>
    /// <param name="readings">Readings they lie between.</param>
    /// <param name="halfWidths">Half widths of the readings' instants, seconds; null when not kept.</param>
    public ReadingTimes Times(int readings, IList<double>? halfWidths)
    {
        double? halfWidth = NearestRank.Of([.. halfWidths ?? []], 0.99);
        return _count == 0
            ? new ReadingTimes { Readings = readings, InstantHalfWidthS = halfWidth }
            : new ReadingTimes
            {
                Readings = readings,
                MedianIntervalS = At(0.5),
                P99IntervalS = At(0.99),
                WorstIntervalS = _worst,
                InstantHalfWidthS = halfWidth,
            };
    }

    // The middle of the size that holds the nearest rank, unless all lie on one side of it.
    private double At(double share)
    {
        long left = Math.Max(1, (long)Math.Ceiling(share * _count));
        for (int octave = 0; octave < Octaves; octave++)
        {
            for (int i = 0; i < (_octaves[octave]?.Length ?? 0); i++)
            {
                left -= _octaves[octave]![i];
                if (left <= 0)
                {
                    return Math.Clamp(Math.ScaleB(1 + ((i + 0.5) / PerOctave), FirstOctave + octave), _least, _worst);
                }
            }
        }

        return _worst;
    }

    // As the bits of numbers above 0 rise with them, those in front tell their size.
    private static int Size(float seconds) => (Math.Clamp(BitConverter.SingleToInt32Bits(seconds), First, Last) - First) >> Below;

    private void Measure(ReadOnlySpan<double> times, Span<int> sizes)
    {
        ref double from = ref MemoryMarshal.GetReference(times);
        ref int to = ref MemoryMarshal.GetReference(sizes[..(times.Length - 1)]);
        Vector256<double> least = Vector256.Create(double.PositiveInfinity), worst = -least;
        Vector256<int> first = Vector256.Create(First), last = Vector256.Create(Last);
        int i = 0;
        for (; i <= sizes.Length - 8; i += 8)
        {
            Vector256<double> a = Vector256.LoadUnsafe(ref from, (nuint)i + 1) - Vector256.LoadUnsafe(ref from, (nuint)i);
            Vector256<double> b = Vector256.LoadUnsafe(ref from, (nuint)i + 5) - Vector256.LoadUnsafe(ref from, (nuint)i + 4);
            (Vector256.Min(Vector256.Max(Vector256.Narrow(a, b).AsInt32(), first), last) - first >>> Below).StoreUnsafe(ref to, (nuint)i);
            least = Vector256.MinNative(least, Vector256.MinNative(a, b));
            worst = Vector256.MaxNative(worst, Vector256.MaxNative(a, b));
        }

        _least = Math.Min(_least, Math.Min(Math.Min(least[0], least[1]), Math.Min(least[2], least[3])));
        _worst = Math.Max(_worst, Math.Max(Math.Max(worst[0], worst[1]), Math.Max(worst[2], worst[3])));
        for (; i < sizes.Length; i++)
        {
            double seconds = times[i + 1] - times[i];
            sizes[i] = Size((float)seconds);
            _least = Math.Min(_least, seconds);
            _worst = Math.Max(_worst, seconds);
        }
    }

    private void Count(ReadOnlySpan<int> sizes)
    {
        _count += sizes.Length;
        if (!sizes.ContainsAnyExcept(sizes[0]))
        {
            // As in a stream, which has a clock.
            Place(sizes[0]) += sizes.Length;
            return;
        }

        foreach (int size in sizes)
        {
            Place(size)++;
        }
    }

    private ref long Place(int size) => ref (_octaves[size >> OctaveBits] ??= new long[PerOctave])[size & (PerOctave - 1)];
}
