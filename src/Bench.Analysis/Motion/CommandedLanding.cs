using Bench.Analysis.Positioning;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Rings;

namespace Bench.Analysis.Motion;

/// <summary>Landing of a unit that turns itself: the bench has no part in it, so the whole error is the unit's.</summary>
internal static class CommandedLanding
{
    /// <summary>What makes a single landing uncertain.</summary>
    public static Contribution[] Budget { get; } =
        [new("resolution of a landing's count", EvaluationType.B, ErrorDistribution.Rectangular, Contributions.Resolution(1))];

    /// <summary>The landing; null unless the move landed and rested under readings.</summary>
    public static LandingShares? Of(MoveCourse course, Ring ring)
    {
        if (course.Move.End != MoveEnd.Landed || course.Landing() is not long landing)
        {
            return null;
        }

        double error = ring.Difference(ring.Place(landing), course.Move.TargetCount);
        return new LandingShares(error, null, 0, error, Combination.StandardUncertainty(Budget));
    }
}
