using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Comparing;

/// <summary>The ring's sensors in two runs. Each state was decided with all counts of the ring allowed for (C5), so a change of state needs no further test.</summary>
internal static class SensorComparison
{
    /// <summary>Why the places on the ring of two runs can't be held against each other; null when they can.</summary>
    public static string? Refusal(RunRecord a, RunRecord b)
    {
        if (a.Features is null || b.Features is null)
        {
            return $"{(a.Features is null ? "A" : "B")} has no features";
        }

        if (a.Start.Profile.Feedback == FeedbackKind.Switches || b.Start.Profile.Feedback == FeedbackKind.Switches)
        {
            return "units of this family report ports, not counts";
        }

        int ofA = a.Features.Ring.States.Count, ofB = b.Features.Ring.States.Count;
        return ofA != ofB ? $"the ring of A has {ofA} counts, that of B {ofB}"
            : a.Start.Profile.Feedback == FeedbackKind.Incremental && !(a.Start.Bench.HasIndex && b.Start.Bench.HasIndex)
                ? "this feedback counts from where it was switched on, and without an index in both runs a count is not the same place"
                : null;
    }

    /// <summary>The changes between two rings of one size.</summary>
    public static SensorChanges Of(RingMap a, RingMap b)
    {
        IReadOnlyList<SensorState> before = a.States, after = b.States;
        int[] Where(Func<SensorState, SensorState, bool> holds) => [.. Enumerable.Range(0, before.Count).Where(i => holds(before[i], after[i]))];
        return new SensorChanges
        {
            NewlyDead = Where((x, y) => x is SensorState.Seen or SensorState.Weak && y == SensorState.Dead),
            NewlyWeak = Where((x, y) => x == SensorState.Seen && y == SensorState.Weak),
            NewlySeen = Where((x, y) => (x is SensorState.Dead or SensorState.Weak && y == SensorState.Seen) || (x == SensorState.Dead && y == SensorState.Weak)),
            StillFaulty = Where((x, y) => (x == SensorState.Dead && y == SensorState.Dead) || (x == SensorState.Weak && y == SensorState.Weak)),
            TestedOnce = Where((x, y) => (IsFaulty(x) && y == SensorState.Untested) || (x == SensorState.Untested && IsFaulty(y))),
        };
    }

    private static bool IsFaulty(SensorState state) => state is SensorState.Dead or SensorState.Weak;
}
