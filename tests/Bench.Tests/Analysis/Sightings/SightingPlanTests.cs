using Bench.Analysis.Sightings;
using Bench.Model.Profiles;
using Bench.Tests.Running;

namespace Bench.Tests.Analysis.Sightings;

public class SightingPlanTests
{
    // By hand: p = 136/263 = 0.5171; ln(0.05/2/800) / ln(1 - p) = -10.373/-0.728 = 14.25, so 15 passes (c05);
    // the shipped profile's own alpha is used below.
    [Fact]
    public void For_TheUsualRate_IsWhatTheMethodPageSays()
    {
        Profile profile = VirtualRun.Diverter with { Demonstration = VirtualRun.Diverter.Demonstration with { MissedSensorAlpha = 0.05 } };
        SightingPlan plan = SightingPlan.For(profile, 136);
        Assert.Equal(0.517, plan.SightingProbability, 0.001);
        Assert.Equal(15, plan.Passes);
        Assert.Equal(15 * 800 / 263.0, plan.TurningS, 0.01);
        Assert.Equal(plan.TurningS / 0.85, plan.LeastS, 0.01);
    }

    [Fact]
    public void For_AnyRate_NeedsPassesThatLeaveADeadSensorNoChance()
    {
        foreach (double rate in new[] { 5.0, 20, 68, 136, 263, 5000 })
        {
            SightingPlan plan = SightingPlan.For(VirtualRun.Diverter, rate);
            double chance = VirtualRun.Diverter.Demonstration.MissedSensorAlpha / 2 / 800;
            Assert.InRange(plan.SightingProbability, 0, 0.98);
            Assert.True(Math.Pow(1 - plan.SightingProbability, plan.Passes) <= chance);
            Assert.True(Math.Pow(1 - plan.SightingProbability, plan.Passes - 1) > chance);
        }
    }

    [Fact]
    public void LeastRate_OfAProfile_TestsACountInTheRevolutionsOfItsRoutine()
    {
        Profile profile = VirtualRun.Diverter;
        double least = SightingPlan.LeastRateHz(profile)!.Value;
        Assert.InRange(least, 5, 136);
        Assert.Equal(SightingPlan.RevolutionsOf(profile), SightingPlan.For(profile, least).Passes, 1.0);
    }

    [Fact]
    public void LeastRate_RoutineThatDoesNotTurn_IsNone() =>
        Assert.Null(SightingPlan.LeastRateHz(VirtualRun.Diverter with { Routine = [] }));
}
