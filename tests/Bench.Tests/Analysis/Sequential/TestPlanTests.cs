using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Sequential;

public class TestPlanTests
{
    // Wald 1947: with his boundaries the risks are at most alpha/(1 - beta) and beta/(1 - alpha).
    [Fact]
    public void Of_ShippedPlan_HoldsItsRisksAtP0AndP1()
    {
        Demonstration plan = Diverter.Profile.Demonstration;

        IReadOnlyList<PlanPoint> points = TestPlan.Of(plan);

        Assert.Equal([0, plan.P0, Math.Sqrt(plan.P0 * plan.P1), plan.P1, 2 * plan.P1], points.Select(p => p.FailingShare));
        Assert.Equal(1, points[0].Shown, 1e-12);
        Assert.InRange(points[1].Shown, 1 - (plan.Alpha / (1 - plan.Beta)), 1);
        Assert.InRange(points[3].Shown, 0, plan.Beta / (1 - plan.Alpha));
    }

    // A unit that never fails needs the moves of the lower boundary, no more and no less: ceil(ln(B)/pass step).
    [Fact]
    public void Of_UnitThatNeverFails_NeedsTheMovesToTheLowerBoundary()
    {
        Demonstration plan = Diverter.Profile.Demonstration;
        double step = Math.Log((1 - plan.P1) / (1 - plan.P0));

        Assert.Equal(Math.Ceiling(Math.Log(plan.Beta / (1 - plan.Alpha)) / step), TestPlan.Of(plan)[0].ExpectedMoves, 1e-9);
    }

    [Fact]
    public void Of_AnyPlan_ChancesSumToOneAndWorseUnitsPassLess() => Gen.Select(
        Gen.Double[0.001, 0.05], Gen.Double[1.5, 10], Gen.Double[0.01, 0.3], Gen.Double[0.01, 0.3], Gen.Int[1, 150]).Sample((p0, ratio, alpha, beta, most) =>
    {
        Demonstration plan = Diverter.Profile.Demonstration with { P0 = p0, P1 = p0 * ratio, Alpha = alpha, Beta = beta, MostMoves = most };
        IReadOnlyList<PlanPoint> points = TestPlan.Of(plan);
        Assert.All(points, p => Assert.Equal(1, p.Shown + p.Refuted + p.Undecided, 1e-9));
        Assert.All(points, p => Assert.InRange(p.ExpectedMoves, 1 - 1e-9, most + 1e-9));
        Assert.All(points.Zip(points.Skip(1)), pair => Assert.InRange(pair.Second.Shown, 0, pair.First.Shown + 1e-12));
    }, iter: 200);
}
