using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Extraction;

/// <summary>Moves go on while they can decide a value that lies in its guard band (C11, C12).</summary>
public class OpenDecisionTests
{
    private const string Drift = "index.drift_counts_per_100_moves";

    private static readonly SyntheticUnit Unit = new SyntheticUnit(Diverter.Profile, 1) { Lead = (move, _) => 0.07 * move }.WholeRoutine(12);

    private static readonly Contribution Scatter = new("scatter", EvaluationType.A, ErrorDistribution.Normal, 3.35);

    // By hand: 6.8 with u 3.35 against 6. Four times the observations leave 1.675, and the value moves by √(3.35² - 1.675²) =
    // 2.901 on average: above 6 + 3.35 with 1 - Φ(0.879) = 0.190, below 6 - 3.35 with Φ(-1.431) = 0.076.
    [Fact]
    public void ChanceAfter_ScatterAlone_IsWhatTheNormalDistributionSays() =>
        Assert.Equal(0.266, OpenDecision.ChanceAfter(Value(Scatter), Limit(6), 4), 0.001);

    // A slope's uncertainty falls to an eighth: 0.419, moves 3.324; above 6.838 with 1 - Φ(0.0113), below 5.162 with Φ(-0.493).
    [Fact]
    public void ChanceAfter_Slope_FallsWithTheLengthItSpans() =>
        Assert.Equal(0.806, OpenDecision.ChanceAfter(Value(Scatter with { FallsAsPower = 1.5 }), Limit(6), 4), 0.001);

    [Fact]
    public void ChanceAfter_BenchAlone_IsNone() =>
        Assert.Equal(0, OpenDecision.ChanceAfter(Value(Scatter with { FallsAsPower = 0 }), Limit(6), 1000));

    // The limit is put half a standard uncertainty below what was found.
    [Theory]
    [InlineData(600, true)]
    [InlineData(70, false)]
    public void Evidence_ValueInItsGuardBand_GoesOnWhileThereAreMovesEnough(int mostMoves, bool goesOn)
    {
        Feature drift = SyntheticRun.Extract(Unit).Features.Of(Drift);
        EvidenceState evidence = SyntheticRun.Extract(Unit, Limited(Drift, drift.Value!.Value - (0.5 * drift.StandardUncertainty!.Value), mostMoves)).Evidence;

        Assert.Equal(SequentialState.Shown, evidence.Sequential);
        Assert.Equal(!goesOn, evidence.Enough);
        Assert.Equal(goesOn, evidence.Because.Contains("Drift at the shaft lies outside its limit by less than its uncertainty", StringComparison.Ordinal));
        Assert.Equal(goesOn, evidence.MovesToGo > 0);
    }

    // The meter makes most of the uncertainty of the running current: more moves would not help.
    [Fact]
    public void Evidence_MeterMakesItUndecided_StopsAsBefore()
    {
        Feature running = SyntheticRun.Extract(Unit).Features.Of("current.running_a");
        Profile profile = Limited("current.running_a", running.Value!.Value - (0.5 * running.StandardUncertainty!.Value), 600);

        Assert.True(SyntheticRun.Extract(Unit, profile).Evidence.Enough);
    }

    // Friction beyond its limit is a fault found, whatever else is open.
    [Fact]
    public void Evidence_FaultFoundBesides_StopsAsBefore()
    {
        Feature drift = SyntheticRun.Extract(Unit).Features.Of(Drift);
        Profile profile = Limited(Drift, drift.Value!.Value - (0.5 * drift.StandardUncertainty!.Value), 600);
        profile = profile with { Limits = [.. profile.Limits.Select(l => l.Feature == "current.running_a" ? l with { Upper = 0.1 } : l)] };

        Assert.True(SyntheticRun.Extract(Unit, profile).Evidence.Enough);
    }

    private static Feature Value(Contribution contribution) => Feature.Of(Drift, 6.8, 3.35, 40) with { Budget = [contribution] };

    private static Limit Limit(double upper) => new() { Feature = Drift, Upper = upper, Rule = DecisionRule.Guarded, Severity = Severity.Repair };

    private static Profile Limited(string feature, double upper, int mostMoves) => Diverter.Profile with
    {
        Demonstration = Diverter.Profile.Demonstration with { MostMoves = mostMoves },
        Limits = [.. Diverter.Profile.Limits.Select(l => l.Feature == feature ? l with { Upper = upper }
            : l.Feature.StartsWith("index.", StringComparison.Ordinal) ? l with { Upper = 1000 } : l)],
    };
}
