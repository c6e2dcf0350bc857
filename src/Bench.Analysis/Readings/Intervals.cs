using System.Buffers;
using Bench.Analysis.Statistics;
using Bench.Model.Features;

namespace Bench.Analysis.Readings;

/// <summary>Times between readings, eight bytes each, in blocks, so that a long run's are never copied to grow.</summary>
internal sealed class Intervals
{
    private const int LeastBlock = 256;
    private const int MostBlock = 65536;

    private readonly List<double[]> _full = [];
    private double[] _block = new double[LeastBlock];
    private int _used;
    private int _count;

    /// <summary>Adds one, in seconds.</summary>
    public void Add(double seconds) => Room(1)[0] = seconds;

    /// <summary>Adds those between instants.</summary>
    /// <param name="times">Seconds, rising.</param>
    public void AddBetween(ReadOnlySpan<double> times)
    {
        while (times.Length > 1)
        {
            Span<double> room = Room(times.Length - 1);
            for (int i = 0; i < room.Length; i++)
            {
                room[i] = times[i + 1] - times[i];
            }

            times = times[room.Length..];
        }
    }

    /// <summary>What they come to.</summary>
    /// <param name="readings">Readings they lie between.</param>
    /// <param name="halfWidths">Half widths of the readings' instants, seconds; null when not kept.</param>
    public ReadingTimes Times(int readings, IList<double>? halfWidths)
    {
        double[] rented = ArrayPool<double>.Shared.Rent(_count);
        int copied = 0;
        foreach (double[] block in _full)
        {
            block.CopyTo(rented, copied);
            copied += block.Length;
        }

        _block.AsSpan(0, _used).CopyTo(rented.AsSpan(copied));
        ReadOnlySpan<double> all = rented.AsSpan(0, _count);
        ReadingTimes times = new()
        {
            Readings = readings,
            MedianIntervalS = NearestRank.Of(all, 0.5),
            P99IntervalS = NearestRank.Of(all, 0.99),
            WorstIntervalS = all.IsEmpty ? null : Describe.Greatest(all),
            InstantHalfWidthS = NearestRank.Of([.. halfWidths ?? []], 0.99),
        };
        ArrayPool<double>.Shared.Return(rented);
        return times;
    }

    // Room for the next, as many as the block still takes.
    private Span<double> Room(int wanted)
    {
        if (_used == _block.Length)
        {
            _full.Add(_block);
            _block = GC.AllocateUninitializedArray<double>(Math.Min(2 * _block.Length, MostBlock));
            _used = 0;
        }

        int taken = Math.Min(wanted, _block.Length - _used);
        _used += taken;
        _count += taken;
        return _block.AsSpan(_used - taken, taken);
    }
}
