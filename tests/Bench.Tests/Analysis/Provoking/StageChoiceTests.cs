using Bench.Analysis.Provoking;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Provoking;

public class StageChoiceTests
{
    // From the joint table of cause and outcome, sum of p(c, o) log2(p(c, o) / p(c) p(o)), worked out in Python.
    [Fact]
    public void Information_ThreeCauses_IsThatOfTheJointTable() => Assert.Equal(
        0.5631690176868899,
        StageChoice.Information(StageKind.Starts, [new("none", "", 0.5), new("a", "", 0.3), new("b", "", 0.2)], Showing(("none", 0.01), ("a", 0.9), ("b", 0.4))),
        1e-12);

    [Fact]
    public void Information_StageShowsAlikeUnderAll_IsNone() => Assert.Equal(
        0,
        StageChoice.Information(StageKind.Starts, [new("none", "", 0.5), new("a", "", 0.5)], Showing(("none", 0.3), ("a", 0.3))),
        1e-12);

    [Fact]
    public void Information_CauseIsCertain_IsNone() => Assert.Equal(
        0,
        StageChoice.Information(StageKind.Starts, [new("a", "", 1), new("none", "", 0)], Showing(("none", 0.01), ("a", 0.9))),
        1e-12);

    private static Profile Showing(params (string Id, double Show)[] modes) => Diverter.Profile with
    {
        FaultModes = [.. modes.Select(m => new FaultMode
        {
            Id = m.Id,
            Name = m.Id,
            Prior = 1.0 / modes.Length,
            ExplainsFeedbackFault = false,
            Shows = new Dictionary<string, double> { [ProvokedFeatures.FailedStarts] = m.Show },
        })],
    };
}
