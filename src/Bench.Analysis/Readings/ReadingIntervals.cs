using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Traces;

namespace Bench.Analysis.Readings;

/// <summary>Times from one good reading to the next, within moves: what position and current are known at, and how late they can be.</summary>
public sealed class ReadingIntervals
{
    private readonly Intervals _position = new();
    private readonly Intervals _meters = new();
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
        Position = _position.Times(_positions, instants?.Position),
        Meters = _meters.Times(_meterReadings, instants?.Meters),
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

    private static int Add(Intervals intervals, ReadOnlySpan<double> times)
    {
        intervals.AddBetween(times);
        return times.Length;
    }

    private static double Next(Intervals intervals, double last, double now)
    {
        if (double.IsFinite(now - last))
        {
            intervals.Add(now - last);
        }

        return now;
    }
}
