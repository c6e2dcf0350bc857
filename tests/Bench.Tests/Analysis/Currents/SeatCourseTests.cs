using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Currents;

/// <summary>The seats' torque as a witness of the valve's shaft, on a bench without an index (C6).</summary>
public class SeatCourseTests
{
    private static readonly Profile Profile = Diverter.Profile with
    {
        IndexWidthCounts = null,
        Limits =
        [
            .. Diverter.Profile.Limits.Where(l => !l.Feature.StartsWith("index.", StringComparison.Ordinal)),
            .. new[] { "seat.step_counts", "seat.drift_counts_per_100_moves" }.Select(n =>
                new Limit { Feature = n, Upper = 1000, Rule = DecisionRule.Guarded, Severity = Severity.Note }),
        ],
    };

    [Fact]
    public void Complete_SeatsStayAtTheirPorts_KeepTheirLevel()
    {
        RunFeatures features = Run((_, _) => 0);

        Assert.Equal(0, features.Value("seat.step_counts"));
        Assert.InRange(features.Of("seat.step_counts").StandardUncertainty!.Value, 0, 2);
        Assert.InRange(features.Value("seat.drift_counts_per_100_moves"), 0, 3 * features.Of("seat.drift_counts_per_100_moves").StandardUncertainty!.Value);
    }

    // The coupling rode over a tooth of 9 counts before move 75; play of 4 counts is there all the time and is no step.
    [Fact]
    public void Complete_CouplingSlipsOnce_IsAStepOfItsSize()
    {
        Feature step = Run((move, sign) => (move >= 75 ? 9 : 0) + (2 * sign)).Of("seat.step_counts");

        Assert.InRange(step.Value!.Value - 9, -3 * step.StandardUncertainty!.Value, 3 * step.StandardUncertainty.Value);
        Assert.InRange(step.StandardUncertainty.Value, 0, 1);
    }

    [Fact]
    public void Complete_ZeroDrifts_IsADriftOfItsSlope()
    {
        Feature drift = Run((move, _) => 0.12 * move).Of("seat.drift_counts_per_100_moves");

        Assert.InRange(drift.Value!.Value - 12, -3 * drift.StandardUncertainty!.Value, 3 * drift.StandardUncertainty.Value);
    }

    [Fact]
    public void Complete_PortsTooClose_SaysSo()
    {
        Profile close = Profile with { Ports = [.. Profile.Ports.Select((p, i) => p with { Count = 60 * i })] };
        SyntheticUnit unit = new SyntheticUnit(close, 3) { SeatsFollowShaft = true }.WholeRoutine(4);
        Assert.Contains("too close", SyntheticRun.Extract(unit, close).Features.Of("seat.step_counts").NotAssessableBecause, StringComparison.Ordinal);
    }

    private static RunFeatures Run(Func<int, int, double> lead) =>
        SyntheticRun.Extract(new SyntheticUnit(Profile, 3) { SeatsFollowShaft = true, Lead = lead }.WholeRoutine(40), Profile).Features;
}
