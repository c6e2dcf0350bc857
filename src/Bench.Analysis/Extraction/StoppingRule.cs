using Bench.Analysis.Feedback;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Extraction;

/// <summary>When a run has seen enough.</summary>
internal static class StoppingRule
{
    /// <summary>The state of the evidence.</summary>
    /// <param name="plan">What must be shown.</param>
    /// <param name="test">The test on moves.</param>
    /// <param name="coverage">Share of the ring, or of the port switches, tested so far.</param>
    /// <param name="revolutionsToGo">Further revolutions that would bring it to what the plan asks.</param>
    /// <param name="stillInARow">Moves in a row, up to the last, in which the count did not move or could not be read.</param>
    /// <param name="landedWrong">Whether a move failed by where it landed or how it counted alone: then the ring may be why, and is tested before the run ends.</param>
    /// <param name="witnessed">Failed readings in dropouts of the feedback so far.</param>
    /// <param name="undecided">The value that keeps a unit otherwise shown to be good from a verdict and that moves can decide; null for none.</param>
    public static EvidenceState State(
        Demonstration plan, SequentialTest test, double coverage, Func<int> revolutionsToGo, int stillInARow, bool landedWrong, int witnessed,
        Func<OpenDecision?> undecided)
    {
        bool covered = coverage >= plan.RingCoverage;
        OpenDecision? open = covered && test.State == SequentialState.Shown && test.Moves < plan.MostMoves && stillInARow < EvidenceState.MostStillInARow
            ? undecided()
            : null;
        int revolutions = covered ? 0 : revolutionsToGo();
        (bool enough, string because) = (test.State, covered) switch
        {
            _ when stillInARow >= EvidenceState.MostStillInARow =>
                (true, $"{stillInARow} moves in a row did not move the count; more of them tell nothing new"),
            (SequentialState.Refuted, false) when landedWrong && test.Moves < plan.MostMoves =>
                (false, $"moves fail by where they land; {revolutions} further revolutions would tell whether the ring is why"),
            (SequentialState.Refuted, _) when witnessed > 0 && LinkCondition.SpellExplains(witnessed) && test.Moves < plan.MostMoves =>
                (false, "the feedback drops out; further moves would tell it from a bad spell of the link"),
            (SequentialState.Refuted, _) => (true, "the share of failing moves is shown to be too great"),
            (SequentialState.Shown, true) when open is not null =>
                (false, $"{FeatureCatalog.Get(open.Feature.Name).Title} lies outside its limit by less than its uncertainty; about {open.Moves} further moves are likely to decide"),
            (SequentialState.Shown, true) => (true, "moves and ring are shown to be good enough"),
            (SequentialState.Truncated, true) => (true, $"{test.Moves} moves did not decide; the profile allows no more"),
            (SequentialState.Shown, false) => (false, $"{revolutions} further revolutions would finish testing the ring"),
            (_, true) => (false, $"{test.MovesToGo} further moves without a failure would reach the demonstration"),
            _ => (false, $"{test.MovesToGo} further moves without a failure and {revolutions} further revolutions would be enough"),
        };
        return new EvidenceState
        {
            Sequential = test.State,
            MovesToGo = open?.Moves ?? test.MovesToGo,
            Coverage = coverage,
            RevolutionsToGo = revolutions,
            StillInARow = stillInARow,
            Enough = enough,
            Because = because,
        };
    }
}
