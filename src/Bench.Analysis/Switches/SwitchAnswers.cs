using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Switches;

/// <summary>What port switches answered over a run, counted as samples come in.</summary>
internal sealed class SwitchAnswers
{
    /// <summary>Readings in a row that make an episode: one may straddle an exchange.</summary>
    private const int LeastInARow = 2;

    private const double NearlyAll = 0.8;

    private readonly Dictionary<int, int> _beside = [];
    private Sample? _before;
    private int _inARow;

    /// <summary>Answers heard.</summary>
    public int Count { get; private set; }

    /// <summary>Episodes in which switches contradicted each other.</summary>
    public int Contradictions { get; private set; }

    /// <summary>Counts the next samples.</summary>
    public void Add(ReadOnlySpan<Sample> samples)
    {
        foreach (Sample s in samples)
        {
            if (!s.Heard)
            {
                continue;
            }

            bool contradict = s.Feedback == FeedbackStatus.SwitchesContradict;
            Count++;
            _inARow = contradict ? _inARow + 1 : 0;
            Contradictions += _inARow == LeastInARow ? 1 : 0;
            if (_before is { } b && (b.Feedback == FeedbackStatus.SwitchesContradict) != contradict)
            {
                int count = b.HasCount ? b.Count : s.Count;
                _beside[count] = _beside.GetValueOrDefault(count) + 1;
            }

            _before = s;
        }
    }

    /// <summary>The port that alone reads closed before or after nearly every contradiction: its switch does not open.</summary>
    public string? StuckPort(Profile profile)
    {
        int all = _beside.Values.Sum();
        return profile.Ports.FirstOrDefault(p => _beside.GetValueOrDefault(p.Count) > NearlyAll * all)?.Name;
    }
}
