using Bench.Analysis.Statistics;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>Position readings of one move, unwrapped by speed and time (C2), and its steady part.</summary>
internal sealed class MoveCourse
{
    /// <summary>Time from drive on until speed counts as steady, seconds: ten mechanical time constants of a small gearmotor, and the relay's own time. Common practice, no source.</summary>
    public const double StartUpS = 0.15;

    /// <summary>Readings that make a steady part.</summary>
    public const int LeastReadings = 8;

    private const int LeastTravel = 8;
    private const int LeastStart = 3;
    private const double LineSpanS = 0.06;

    private readonly List<double> _times = [];
    private readonly List<long> _counts = [];
    private readonly List<int> _failedBefore = [];

    /// <summary>Follows the readings of a move's slice.</summary>
    public MoveCourse(ReadOnlySpan<Sample> slice, Move move, Profile profile)
    {
        Move = move;
        Sign = move.Direction == DriveDirection.Up ? 1 : -1;
        double speed = Sign * profile.Electrical.RunningSpeedCountsPerS;
        int failed = 0;
        bool counts = profile.Feedback != FeedbackKind.Switches;
        foreach (Sample s in slice)
        {
            // A port's switch says that the unit is at the port, not where; there is no course then.
            if (!s.HasCount || !counts || !double.IsFinite(s.TimeS))
            {
                failed += s.Feedback is FeedbackStatus.NotSampled ? 0 : 1;
                continue;
            }

            long count = s.Count;
            if (_counts.Count > 0)
            {
                if (s.TimeS <= _times[^1])
                {
                    continue;
                }

                double driven = Math.Min(s.TimeS, move.DriveOffS) - Math.Max(_times[^1], move.DriveOnS);
                double expected = _counts[^1] + (speed * Math.Max(driven, 0));
                count = (long)Math.Round(expected + profile.Ring.Difference(s.Count, profile.Ring.Place(expected)));
            }

            _times.Add(s.TimeS);
            _counts.Add(count);
            _failedBefore.Add(failed);
            failed = 0;
        }

        (SteadyFirst, SteadyLast) = FindSteady();
    }

    /// <summary>The move.</summary>
    public Move Move { get; }

    /// <summary>+1 towards rising counts, -1 towards falling.</summary>
    public int Sign { get; }

    /// <summary>Times of readings, seconds.</summary>
    public IReadOnlyList<double> Times => _times;

    /// <summary>Unwrapped counts; the first lies on the ring.</summary>
    public IReadOnlyList<long> Counts => _counts;

    /// <summary>Failed attempts between a reading and the one before.</summary>
    public IReadOnlyList<int> FailedBefore => _failedBefore;

    /// <summary>First reading of the steady part.</summary>
    public int SteadyFirst { get; }

    /// <summary>Last reading of the steady part.</summary>
    public int SteadyLast { get; }

    /// <summary>Whether there is a steady part.</summary>
    public bool HasSteady => SteadyLast > SteadyFirst;

    /// <summary>Whether the unit turned as driven, so that the steady part says how it turns.</summary>
    public bool Turned => HasSteady && Move.End is MoveEnd.Landed or MoveEnd.OverTime or MoveEnd.FeedbackLost;

    /// <summary>When the steady part begins, seconds.</summary>
    public double SteadyFromS => _times[SteadyFirst];

    /// <summary>When it ends, seconds.</summary>
    public double SteadyToS => _times[SteadyLast];

    /// <summary>Speed over the steady part, counts per second, signed (least squares); null without one.</summary>
    public double? Speed()
    {
        if (!HasSteady)
        {
            return null;
        }

        int n = SteadyLast - SteadyFirst + 1;
        double[] y = new double[n];
        for (int i = 0; i < n; i++)
        {
            y[i] = _counts[SteadyFirst + i];
        }

        return StraightLine.LeastSquares([.. _times.GetRange(SteadyFirst, n)], y).Slope;
    }

    /// <summary>Position at an instant in the steady part by a robust line through the readings near it; null where there are too few.</summary>
    /// <param name="timeS">The instant.</param>
    /// <param name="spanS">Readings this far before and after are used, seconds.</param>
    public double? At(double timeS, double spanS = LineSpanS)
    {
        if (!HasSteady)
        {
            return null;
        }

        int first = Lower(timeS - spanS, SteadyFirst);
        int last = first;
        while (last <= SteadyLast && _times[last] <= timeS + spanS)
        {
            last++;
        }

        int n = last - first;
        if (n < 4)
        {
            return null;
        }

        double[] y = new double[n];
        for (int i = 0; i < n; i++)
        {
            y[i] = _counts[first + i];
        }

        return StraightLine.Robustly([.. _times.GetRange(first, n)], y).At(timeS);
    }

    /// <summary>Position at an instant between two readings of the steady part, by interpolation; null outside.</summary>
    public double? Between(double timeS)
    {
        if (!HasSteady || timeS < SteadyFromS || timeS > SteadyToS)
        {
            return null;
        }

        int after = Math.Max(Lower(timeS, SteadyFirst), SteadyFirst + 1);
        double t0 = _times[after - 1];
        double t1 = _times[after];
        return _counts[after - 1] + ((_counts[after] - _counts[after - 1]) * (timeS - t0) / (t1 - t0));
    }

    /// <summary>Count at rest after the drive went off, unwrapped: the middle of the last three readings; null when there are none.</summary>
    public long? Landing()
    {
        int first = Lower(Move.DriveOffS, 0);
        int n = _times.Count - first;
        return n <= 0 ? null : (long)Math.Round(Robust.Median([.. _counts.GetRange(Math.Max(first, _counts.Count - 3), Math.Min(3, n)).Select(c => (double)c)]));
    }

    private int Lower(double timeS, int from)
    {
        int i = _times.BinarySearch(timeS);
        return Math.Max(i < 0 ? ~i : i, from);
    }

    private (int First, int Last) FindSteady()
    {
        int first = Lower(Move.DriveOnS + StartUpS, 0);
        int last = Lower(Move.DriveOffS, 0) - 1;
        while (first < _counts.Count && Sign * (_counts[first] - _counts[0]) < LeastStart)
        {
            first++;
        }

        // A unit that stopped under drive is steady only up to a little before it stopped.
        int moving = last;
        while (moving > first && _counts[moving - 1] == _counts[last])
        {
            moving--;
        }

        if (moving < last - 3)
        {
            last = moving - 3;
        }

        bool enough = last - first + 1 >= LeastReadings && Sign * (_counts[last] - _counts[first]) >= LeastTravel;
        return enough ? (first, last) : (0, -1);
    }
}
