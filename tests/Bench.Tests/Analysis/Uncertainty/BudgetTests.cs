using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Uncertainty;

public class BudgetTests
{
    // Every feature there is, named ones too.
    private static readonly Profile Everything = Diverter.Profile with
    {
        Limits = [.. FeatureCatalog.All.Select(d => new Limit { Feature = d.Name, Upper = 1000, Rule = DecisionRule.Guarded, Severity = Severity.Note })],
    };

    [Fact]
    public void Complete_AnyRun_BudgetsCombineToTheStandardUncertainty() =>
        Gen.Select(Gen.Int[0, 1000], Gen.Int[2, 24], Gen.Double[0, 0.03], Gen.Bool, Gen.Double[0.2, 2]).Sample(
            (seed, moves, creep, silent, source) => Holds(new SyntheticUnit(Diverter.Profile, seed)
            {
                Lead = (move, sign) => (creep * move) + sign,
                FeedbackFails = silent ? t => t % 11 < 0.06 : _ => false,
                SourceOhm = source,
            }.WholeRoutine(moves)),
            iter: 12);

    [Fact]
    public void Complete_LockedUnit_BudgetsCombineToTheStandardUncertainty() =>
        Holds(new SyntheticUnit(Diverter.Profile, 6) { Locked = true }.WholeRoutine(0));

    // R = (V - Ke w)/I: by hand from the meters' own uncertainty and those of the type's data.
    [Fact]
    public void Complete_HealthyUnit_TellsWhatItsResistanceRestsOn()
    {
        Feature ohm = Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(4)).Of("winding.resistance_ohm");
        Assert.Equal(
            ["current meter", "speed of a move", "torque constant of the type", "voltage meter"],
            ohm.Budget!.Select(c => c.Source).Order(StringComparer.Ordinal));
        Contribution meter = ohm.Budget!.Single(c => c.Source == "voltage meter");
        Assert.Equal((Diverter.Bench.Voltage.StandardUncertainty, "V"), (meter.StandardUncertainty, meter.Unit));
        Contribution current = ohm.Budget!.Single(c => c.Source == "current meter");
        Assert.Equal(-ohm.Value!.Value * meter.Sensitivity, current.Sensitivity, 1e-9);
        Assert.Equal(ohm.Budget!.OrderByDescending(c => c.InFeature), ohm.Budget!);
    }

    private static RunFeatures Extract(SyntheticUnit unit) => SyntheticRun.Extract(unit, Everything).Features;

    private static void Holds(SyntheticUnit unit)
    {
        foreach (Feature f in Extract(unit).Features.Where(f => f.IsAssessed))
        {
            if (FeatureCatalog.Get(f.Name).Counted)
            {
                Assert.Equal((0.0, null), (f.StandardUncertainty, f.Budget));
                continue;
            }

            double squares = (f.Budget ?? []).Sum(c => c.Sensitivity * c.StandardUncertainty * c.Sensitivity * c.StandardUncertainty);
            Assert.True(Math.Abs(Math.Sqrt(squares) - f.StandardUncertainty!.Value) <= 1e-12 * f.StandardUncertainty.Value, f.Name);
            Assert.Equal((f.Budget ?? []).Count, (f.Budget ?? []).Select(c => c.Source).Distinct().Count());
            Assert.Equal(f.DegreesOfFreedom is double v ? Coverage.Factor(v) : null, f.CoverageFactor);
        }
    }
}
