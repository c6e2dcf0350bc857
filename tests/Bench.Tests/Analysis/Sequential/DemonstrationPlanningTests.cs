using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Sequential;

public class DemonstrationPlanningTests
{
    private static readonly DemonstrationPlan Plan = DemonstrationPlanning.Of(Diverter.Profile.Demonstration with
    {
        P0 = 0.005, P1 = 0.08, Alpha = 0.05, Beta = 0.05, MostMoves = 120,
    });

    // By hand (Wald 1947): ln(0.05/0.95) = -2.9444; a pass steps ln(0.92/0.995) = -0.07837, so 38 passes (37.57);
    // a failure steps ln 16 = 2.7726, so 2 (1.06).
    [Fact]
    public void Of_SharedPlan_GivesBoundariesAndShortestWaysByHand()
    {
        Assert.Equal(-2.94443898, Plan.AcceptAt, 1e-8);
        Assert.Equal(2.94443898, Plan.RejectAt, 1e-8);
        Assert.Equal(38, Plan.FewestToShow);
        Assert.Equal(2, Plan.FewestToRefute);
        Assert.Equal(120, Plan.MostMoves);
    }

    [Fact]
    public void Of_SharedPlan_RunsFromP0ToP1InEqualStepsOfTheLogarithm()
    {
        double[] expected = [0.005, 0.01, 0.02, 0.04, 0.08];
        Assert.All(expected.Zip(Plan.Points), p => Assert.Equal(p.First, p.Second.Share, 1e-12));
        Assert.Equal(expected.Length, Plan.Points.Count);
    }

    [Fact]
    public void Of_SharedPlan_PassesFewerTheMoreMovesFail()
    {
        Assert.All(Plan.Points, p => Assert.Equal(1, p.Shown + p.Refuted + p.Truncated, 1e-12));
        Assert.All(Plan.Points.Zip(Plan.Points.Skip(1)), p => Assert.True(p.First.Shown > p.Second.Shown));

        // Wald 1947: the two errors together are not above alpha + beta, truncation aside.
        Assert.True(Plan.Points[0].Refuted + Plan.Points[^1].Shown <= 0.10);
    }

    // One failure is enough to refute where ln(p1/p0) alone is over the boundary: ln 16 > ln(0.8/0.2).
    [Fact]
    public void Of_WideErrors_OneFailureRefutes() =>
        Assert.Equal(1, DemonstrationPlanning.Of(Diverter.Profile.Demonstration with { P0 = 0.005, P1 = 0.08, Alpha = 0.2, Beta = 0.2 }).FewestToRefute);
}
