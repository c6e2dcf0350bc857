using Bench.Analysis.Sequential;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;
using Bench.Tests.Running;

namespace Bench.Tests.Analysis.Sequential;

public class PlanLineTests
{
    // One move decides, by hand: ln(0.5/0.5) = 0 is both boundaries, so the first move passes or fails the unit.
    [Fact]
    public void Of_PlanThatOneMoveDecides_SaysChanceOfAPassAndOneMove()
    {
        Demonstration plan = Diverter.Profile.Demonstration with { P0 = 0.1, P1 = 0.4, Alpha = 0.5, Beta = 0.5, MostMoves = 10 };
        Assert.Equal(
            "plan: a unit failing 10 % of moves passes with 90 % after 1 moves on average; a unit failing 20 % of moves passes with 80 % after 1 moves on average; a unit failing 40 % of moves passes with 60 % after 1 moves on average",
            PlanLine.Of(plan));
    }

    [Fact]
    public void AllOf_ShippedProfile_IsTheDemonstrationAndEveryStageThatProvokes()
    {
        string[] lines = [.. PlanLine.AllOf(VirtualRun.Diverter)];

        Assert.Equal(
            ["plan: ", "plan of stage connector", "plan of stage starts", "plan of stage low-supply", "plan of stage high-supply", "plan of stage warm"],
            lines.Select(l => l.StartsWith("plan: ", StringComparison.Ordinal) ? "plan: " : l[..l.IndexOf(',', StringComparison.Ordinal)]));
    }
}
