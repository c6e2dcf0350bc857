using Bench.Campaigns.Confusion;
using Bench.Model.Moves;
using Bench.Model.Returns;
using Bench.Tests.Running;

namespace Bench.Tests.Campaigns;

/// <summary>Which faults a campaign holds a bench to: those it can bring out.</summary>
public class ReachTests
{
    private static readonly Reach Whole = new(SetsSupply: true, IsAttended: true);

    [Theory]
    [InlineData("dead-sensors", false, false, Symptom.Constant, true)]
    [InlineData("sticking-seal", true, false, Symptom.Intermittent, true)]
    [InlineData("sticking-seal", false, true, Symptom.Intermittent, false)]
    [InlineData("sticking-seal", true, true, Symptom.Constant, false)]
    [InlineData("strained-cable", false, true, Symptom.Intermittent, true)]
    [InlineData("strained-cable", true, false, Symptom.Intermittent, false)]
    [InlineData("warm-open-winding", false, false, Symptom.Intermittent, true)]
    public void Has_Condition_WhereItsStageCanBeRun(string condition, bool setsSupply, bool attended, Symptom symptom, bool expected) =>
        Assert.Equal(expected, new Reach(setsSupply, attended).Has(condition, VirtualRun.Diverter, symptom));

    [Fact]
    public void Has_StageIsNotInTheRoutine_IsOutOfReach() =>
        Assert.False(Whole.Has("warm-open-winding", VirtualRun.Short, Symptom.Intermittent));

    [Fact]
    public void Provoking_FaultThatComesAndGoes_IsEveryStageTheBenchCanRun()
    {
        Assert.Equal(
            [StageKind.Connector, StageKind.Starts, StageKind.LowSupply, StageKind.HighSupply, StageKind.Warm],
            Whole.Provoking(VirtualRun.Diverter, Symptom.Intermittent).Select(s => s.Kind));
        Assert.Equal(
            [StageKind.Starts, StageKind.Warm],
            new Reach(SetsSupply: false, IsAttended: false).Provoking(VirtualRun.Diverter, Symptom.Intermittent).Select(s => s.Kind));
        Assert.Empty(Whole.Provoking(VirtualRun.Diverter, Symptom.Constant));
    }
}
