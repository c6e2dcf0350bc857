using Bench.Analysis.Motion;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Rings;

namespace Bench.Analysis.Positioning;

/// <summary>A landing error split into the bench's share and the unit's (C3).</summary>
/// <param name="Total">Landing reading minus target, circular, counts.</param>
/// <param name="Coast">Travel after the off command, signed counts; null where the position at that instant is not known.</param>
/// <param name="Bench">Where the unit would have landed had it coasted as expected, minus target; null without an expectation, or where the bench was hindered in switching off.</param>
/// <param name="Unit">The rest: actual coast minus expected coast.</param>
/// <param name="Uncertainty">Standard uncertainty of the unit's share.</param>
internal sealed record LandingShares(double Total, double? Coast, double? Bench, double? Unit, double? Uncertainty)
{
    /// <summary>Readings that give the position at the off command lie within this time before it, seconds.</summary>
    private const double SpanS = 0.08;

    /// <summary>Oldest last reading before the off command, seconds.</summary>
    private const double MostAgeS = 0.06;

    /// <summary>Standard uncertainty of the instant of the off command against the readings, seconds: half a poll slot, rectangular. An assumption about the bench.</summary>
    private const double TimingS = 0.001;

    /// <summary>Standard uncertainty of the straight line through a course bent by the seat, counts. An assumption.</summary>
    private const double LineModel = 0.3;

    /// <summary>What makes the unit's share of a single landing uncertain.</summary>
    /// <param name="speed">Speed before the off command, counts per second.</param>
    public static Contribution[] Budget(double speed) =>
    [
        new("resolution of the count, two readings", EvaluationType.B, ErrorDistribution.Triangular, Math.Sqrt(2) * Contributions.Resolution(1)),
        new("instant of the off command, times speed", EvaluationType.B, ErrorDistribution.Rectangular, TimingS) { Unit = "s", Sensitivity = speed },
        new("course bent by the seat", EvaluationType.B, ErrorDistribution.Normal, LineModel),
    ];

    /// <summary>The split; null unless the move landed and rested under readings.</summary>
    public static LandingShares? Of(MoveCourse course, Ring ring)
    {
        Move move = course.Move;
        if (move.End != MoveEnd.Landed || course.Landing() is not long landing)
        {
            return null;
        }

        double total = ring.Difference(ring.Place(landing), move.TargetCount);
        double? atOff = course.HasSteady && move.DriveOffS - course.SteadyToS <= MostAgeS ? course.At(move.DriveOffS, SpanS) : null;
        double? coast = landing - atOff;

        // Where an exchange failed while switching off, the drive stayed on longer than the bench knows.
        if (coast is not double travelled || move.ExpectedCoastCounts is not double expected || move.OffFailures > 0)
        {
            return new LandingShares(total, coast, null, null, null);
        }

        double u = Combination.StandardUncertainty(Budget(course.Speed() ?? 0));
        double unit = travelled - expected;
        return new LandingShares(total, coast, total - unit, unit, u);
    }
}
