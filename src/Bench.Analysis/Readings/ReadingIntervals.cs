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

    private static double Next(List<double> intervals, double last, double now)
    {
        if (!double.IsNaN(last))
        {
            intervals.Add(now - last);
        }

        return now;
    }

    private static ReadingTimes Times(int readings, List<double> intervals, IList<double>? halfWidths) => new()
    {
        Readings = readings,
        MedianIntervalS = NearestRank.Of(intervals, 0.5),
        P99IntervalS = NearestRank.Of(intervals, 0.99),
        WorstIntervalS = NearestRank.Of(intervals, 1),
        InstantHalfWidthS = NearestRank.Of(halfWidths ?? [], 0.99),
    };
}
