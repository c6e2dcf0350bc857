using Bench.Analysis.Positioning;
using Bench.Model.Moves;
using Bench.Model.Rings;

namespace Bench.Analysis.Motion;

/// <summary>Landing of a unit that turns itself: the bench has no part in it, so the whole error is the unit's.</summary>
internal static class CommandedLanding
{
    /// <summary>Resolution of one count, rectangular: 1/√12.</summary>
    private const double Quantisation = 0.2886751345948129;

    /// <summary>The landing; null unless the move landed and rested under readings.</summary>
    public static LandingShares? Of(MoveCourse course, Ring ring)
    {
        if (course.Move.End != MoveEnd.Landed || course.Landing() is not long landing)
        {
            return null;
        }

        double error = ring.Difference(ring.Place(landing), course.Move.TargetCount);
        return new LandingShares(error, null, 0, error, Quantisation);
    }
}
