using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Switches;

/// <summary>What the port switches of one move read: the closings in order, and the instants of which nothing can be said.</summary>
internal sealed class SwitchReadings
{
    private readonly List<SwitchClosing> _closings = [];
    private readonly List<double> _doubtfulS = [];
    private readonly List<double> _timesS = [];

    /// <summary>Follows the readings of a move's slice.</summary>
    public SwitchReadings(ReadOnlySpan<Sample> slice)
    {
        Sample? before = null;
        SwitchEdge? closed = null;
        foreach (Sample s in slice)
        {
            if (s.Feedback == FeedbackStatus.NotSampled)
            {
                continue;
            }

            _timesS.Add(s.TimeS);
            if (s.Feedback is not (FeedbackStatus.Ok or FeedbackStatus.BetweenPorts))
            {
                _doubtfulS.Add(s.TimeS);
            }

            bool same = before is { HasCount: true } && s.HasCount && before.Value.Count == s.Count;
            if (before is { HasCount: true } last && !same)
            {
                _closings.Add(new SwitchClosing(last.Count, closed, Edge(last, s, FeedbackStatus.BetweenPorts)));
                closed = null;
            }

            if (s.HasCount && !same)
            {
                closed = before is { Feedback: FeedbackStatus.BetweenPorts } open ? Edge(open, s, FeedbackStatus.Ok) : null;
            }

            before = s;
            RestCount = s.HasCount ? s.Count : s.Heard ? null : RestCount;
        }

        if (before is { HasCount: true } end)
        {
            _closings.Add(new SwitchClosing(end.Count, closed, null));
        }
    }

    /// <summary>Closings in order of time.</summary>
    public IReadOnlyList<SwitchClosing> Closings => _closings;

    /// <summary>Count of the port whose switch alone was closed when last heard; null for none.</summary>
    public int? RestCount { get; }

    /// <summary>Whether every reading in a stretch of time said something.</summary>
    public bool IsClean(double fromS, double toS) => !_doubtfulS.Exists(t => t >= fromS && t <= toS);

    /// <summary>The longest time without a reading that touches a stretch of time, seconds; infinite without readings round it.</summary>
    public double LongestGapS(double fromS, double toS)
    {
        int first = _timesS.FindLastIndex(t => t <= fromS);
        int last = _timesS.FindIndex(t => t >= toS);
        if (first < 0 || last < 0)
        {
            return double.PositiveInfinity;
        }

        double longest = 0;
        for (int i = first; i < last; i++)
        {
            longest = Math.Max(longest, _timesS[i + 1] - _timesS[i]);
        }

        return longest;
    }

    private static SwitchEdge? Edge(Sample before, Sample after, FeedbackStatus becomes) =>
        after.Feedback == becomes ? new SwitchEdge((before.TimeS + after.TimeS) / 2, after.TimeS - before.TimeS) : null;
}
