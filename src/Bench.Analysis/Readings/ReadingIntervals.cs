using System.Runtime.InteropServices;
using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Traces;

namespace Bench.Analysis.Readings;

/// <summary>Times from one good reading to the next, within moves: what position and current are known at, and how late they can be.</summary>
public sealed class ReadingIntervals
{
    private readonly List<double> _position = [];
    private readonly List<double> _meters = [];
    private int _positions;
    private int _meterReadings;

    /// <summary>Adds the samples of one stretch without a pause.</summary>
    /// <param name="samples">Samples in order.</param>
    /// <param name="fromS">First instant that counts, seconds.</param>
    /// <param name="toS">Last instant that counts.</param>
    public void Add(ReadOnlySpan<Sample> samples, double fromS, double toS)
    {
        double lastPosition = double.NaN;
        double lastMeters = double.NaN;
        foreach (Sample s in samples)
        {
            if (s.TimeS < fromS || s.TimeS > toS)
            {
                continue;
            }

            if (s.HasCount)
            {
                _positions++;
                lastPosition = Next(_position, lastPosition, s.TimeS);
            }

            if (s.HasMeters)
            {
                _meterReadings++;
                lastMeters = Next(_meters, lastMeters, s.TimeS);
            }
        }
    }

    /// <summary>What they come to.</summary>
    /// <param name="instants">How well the instants are known; null when that was not kept.</param>
    public SamplingTimes Times(InstantHalfWidths? instants) => new()
    {
        Position = Times(_positions, _position, instants?.Position),
        Meters = Times(_meterReadings, _meters, instants?.Meters),
    };

    /// <summary>Adds the readings of one move, already taken apart; the same as <see cref="Add(ReadOnlySpan{Sample}, double, double)"/> of its samples.</summary>
    internal void Add(MoveReadings readings, ReadOnlySpan<Sample> samples, double fromS, double toS)
    {
        if (!readings.Plain)
        {
            Add(samples, fromS, toS);
            return;
        }

        _positions += Add(_position, Within(readings.Times, fromS, toS));
        _meterReadings += Add(_meters, Within(readings.Meters.Times, fromS, toS));
    }

    private static ReadOnlySpan<double> Within(ReadOnlySpan<double> rising, double fromS, double toS)
    {
        int first = Rising.FirstFrom(rising, fromS);
        return rising[first..Math.Max(first, Rising.FirstAfter(rising, toS))];
    }

    private static int Add(List<double> intervals, ReadOnlySpan<double> times)
    {
        int before = intervals.Count;
        CollectionsMarshal.SetCount(intervals, before + Math.Max(0, times.Length - 1));
        Span<double> added = CollectionsMarshal.AsSpan(intervals)[before..];
        for (int i = 0; i < added.Length; i++)
        {
            added[i] = times[i + 1] - times[i];
        }

        return times.Length;
    }

    private static double Next(List<double> intervals, double last, double now)
    {
        if (double.IsFinite(now - last))
        {
            intervals.Add(now - last);
        }

        return now;
    }

    private static ReadingTimes Times(int readings, List<double> intervals, IList<double>? halfWidths) => Times(readings, CollectionsMarshal.AsSpan(intervals), halfWidths);

    private static ReadingTimes Times(int readings, ReadOnlySpan<double> intervals, IList<double>? halfWidths) => new()
    {
        Readings = readings,
        MedianIntervalS = NearestRank.Of(intervals, 0.5),
        P99IntervalS = NearestRank.Of(intervals, 0.99),
        WorstIntervalS = NearestRank.Of(intervals, 1),
        InstantHalfWidthS = NearestRank.Of([.. halfWidths ?? []], 0.99),
    };
}
