using Bench.Analysis.Statistics;
using Bench.Model.Features;

namespace Bench.Analysis.Readings;

/// <summary>Times between readings, eight bytes each, in blocks, so that a long run's are never copied to grow.</summary>
internal sealed class Intervals
{
    private const int LeastBlock = 256;
    private const int MostBlock = 65536;

    private readonly List<ReadOnlyMemory<double>> _full = [];
    private double[] _block = new double[LeastBlock];
    private int _used;
    private int _count;
    private double _worst = double.NegativeInfinity;

    /// <summary>Adds one, in seconds.</summary>
    public void Add(double seconds)
    {
        Room(1)[0] = seconds;
        _worst = Math.Max(_worst, seconds);
    }

    /// <summary>Adds those between instants.</summary>
    /// <param name="times">Seconds, rising.</param>
    public void AddBetween(ReadOnlySpan<double> times)
    {
        while (times.Length > 1)
        {
            Span<double> room = Room(times.Length - 1);
            Elementwise.Differences(times[..(room.Length + 1)], room);
            _worst = Math.Max(_worst, Describe.Greatest(room));
            times = times[room.Length..];
        }
    }

    /// <summary>What they come to.</summary>
    /// <param name="readings">Readings they lie between.</param>
    /// <param name="halfWidths">Half widths of the readings' instants, seconds; null when not kept.</param>
    public ReadingTimes Times(int readings, IList<double>? halfWidths)
    {
        double? halfWidth = NearestRank.Of([.. halfWidths ?? []], 0.99);
        if (_count == 0)
        {
            return new ReadingTimes { Readings = readings, InstantHalfWidthS = halfWidth };
        }

        double[] ranked = BlockRanks.At([.. _full, _block.AsMemory(0, _used)], NearestRank.Place(_count, 0.5), NearestRank.Place(_count, 0.99));
        return new ReadingTimes
        {
            Readings = readings,
            MedianIntervalS = ranked[0],
            P99IntervalS = ranked[1],
            WorstIntervalS = _worst,
            InstantHalfWidthS = halfWidth,
        };
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
