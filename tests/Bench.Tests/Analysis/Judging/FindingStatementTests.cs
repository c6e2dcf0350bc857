using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;
using Bench.Tests.Simulation;

namespace Bench.Tests.Analysis.Judging;

public class FindingStatementTests
{
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

    // With no fault named, so that no cause is clear.
    private static readonly Profile NoCause = Families.Diverter with { FaultModes = [.. Families.Diverter.FaultModes.Where(m => m.Id == "none")] };

    [Theory]
    [InlineData("motion.locked_moves", 1, 0, "The unit stood still at stall current in 1 move; none is allowed. Look at valve, motor and gear.")]
    [InlineData("motion.locked_moves", 4, 0, "The unit stood still at stall current in 4 moves; none is allowed. Look at valve, motor and gear.")]
    [InlineData("winding.resistance_ohm", 26, 1.2, "The bench sees a resistance of 26.0 Ω (give or take 2.4); at most 16 Ω may be. Look at supply contacts, then the brushes.")]
    [InlineData("winding.resistance_ohm", 4, 0.5, "The bench sees a resistance of 4.0 Ω (give or take 1.0); at least 9 Ω must be. Look at supply contacts, then the brushes.")]
    [InlineData("index.reversal_counts", 12.5, 0.25, "Between travel up and down the shaft lags the count by 12.50 counts (give or take 0.50); at most 6 counts may be. Look at the coupling: play.")]
    [InlineData("index.drift_counts_per_100_moves", -20, 1, "The shaft drifts against the count by -20.0 counts in 100 moves (give or take 2.0); at least -6 counts must be. Look at the fixing of the sensor ring.")]
    [InlineData("motion.uncoupled_free", 1, 0, "With the valve off the unit turned, so the valve had held it. Look at the valve.")]
    public void Of_FindingThatDoesNotConform_CanBeReadAloud(string feature, double value, double u, string expected)
    {
        RunFeatures features = Healthy with
        {
            Features = [.. Healthy.Features.Where(f => f.Name != feature), Feature.Of(feature, value, u, 9)],
        };

        Finding finding = Judge.Decide(features, NoCause, Symptom.Constant).Findings.First(f => f.Feature.Name == feature);

        Assert.Equal(FindingDecision.DoesNotConform, finding.Decision);
        Assert.Equal(expected, finding.Statement);
    }

    // Every limit that ships must be sayable: nobody reads "Locked: 4" aloud.
    [Fact]
    public void Of_EveryLimitThatShips_SaysWhereToLook()
    {
        foreach (Limit limit in Families.Diverter.Limits)
        {
            double far = limit.Upper is double most ? most + 100 : limit.Lower!.Value - 100;
            RunFeatures features = Healthy with
            {
                Features = [.. Healthy.Features.Where(f => f.Name != limit.Feature), Feature.Of(limit.Feature, far, 0, 9)],
            };
            Finding finding = Judge.Decide(features, NoCause, Symptom.Constant).Findings.First(f => f.Feature.Name == limit.Feature);
            Assert.Contains(" Look at ", finding.Statement, StringComparison.Ordinal);
            Assert.DoesNotContain("[", finding.Statement, StringComparison.Ordinal);
        }
    }
}
