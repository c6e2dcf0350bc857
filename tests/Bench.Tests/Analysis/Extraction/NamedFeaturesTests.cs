using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Extraction;

/// <summary>Features that are computed only where the profile names them (C3, C4, C9).</summary>
public class NamedFeaturesTests
{
    private static readonly string[] Names = [.. FeatureCatalog.All.Where(d => d.OnlyWhereNamed).Select(d => d.Name)];

    private static Profile Naming(Profile profile) => profile with
    {
        Limits = [.. profile.Limits, .. Names.Select(n => new Limit { Feature = n, Upper = 1000, Rule = DecisionRule.Simple, Severity = Severity.Note })],
    };

    [Fact]
    public void Complete_ProfileDoesNotNameThem_AreNotComputed()
    {
        RunFeatures features = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

        Assert.DoesNotContain(features.Features, f => Names.Contains(f.Name));
    }

    [Fact]
    public void Complete_NoMovesAtAll_HasThemAllAndNoNumberMadeUp()
    {
        RunFeatures features = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).Rest(1), Naming(Diverter.Profile)).Features;

        Assert.All(Names, n => Assert.False(features.Of(n).IsAssessed));
    }

    // A healthy unit: no drift, no step; and nothing that would tell resistance from back-EMF.
    [Fact]
    public void Complete_HealthyUnit_KeepsItsLevels()
    {
        RunFeatures features = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(48), Naming(Diverter.Profile)).Features;

        Assert.Equal(0, features.Value("current.step_a"));
        Assert.InRange(features.Value("current.drift_a_per_100_moves"), 0, 0.01);
        Assert.InRange(features.Value("landing.step_counts"), 0, 2 * features.Of("landing.step_counts").StandardUncertainty!.Value);
        Assert.InRange(features.Value("landing.drift_counts_per_100_moves"), 0, 3);
        Assert.InRange(features.Value("landing.reversal_counts"), 0, 3);
        Assert.True(features.Value("landing.systematic_counts") >= features.Value("landing.reversal_counts") - 1e-9);
        Assert.Contains("one proportion", features.Of("motor.resistance_ohm").NotAssessableBecause, StringComparison.Ordinal);
    }

    // Friction rises by 0.06 A half-way through the run.
    [Fact]
    public void Complete_FrictionRisesHalfWay_IsAStepOfCurrent()
    {
        SyntheticUnit unit = null!;
        int moves = 0;
        unit = new SyntheticUnit(Diverter.Profile, 2) { Friction = _ => unit.Moves.Count < moves ? 0.22 : 0.28 };
        moves = 53 + 30;
        RunFeatures features = SyntheticRun.Extract(unit.WholeRoutine(60), Naming(Diverter.Profile)).Features;
        Feature step = features.Of("current.step_a");

        Assert.InRange(Math.Abs(step.Value!.Value - 0.06), 0, 0.004 + (3 * step.StandardUncertainty!.Value));
        Assert.Contains("it stepped at move", features.Of("current.drift_a_per_100_moves").NotAssessableBecause, StringComparison.Ordinal);
    }

    // Friction rises by 0.1 A over 100 moves.
    [Fact]
    public void Complete_FrictionCreeps_IsADriftOfCurrent()
    {
        SyntheticUnit unit = null!;
        unit = new SyntheticUnit(Diverter.Profile, 2) { Friction = _ => 0.22 + (0.001 * unit.Moves.Count) };
        Feature drift = SyntheticRun.Extract(unit.WholeRoutine(48), Naming(Diverter.Profile)).Features.Of("current.drift_a_per_100_moves");

        Assert.InRange(Math.Abs(drift.Value!.Value - 0.1), 0, 0.003 + (3 * drift.StandardUncertainty!.Value));
    }

    // Turning and held still: 12 Ω, 0.045 V·s/rad, and 0.22 A of friction and more over the seats (docs/methods/c09).
    [Fact]
    public void Complete_TurnedAndHeld_FitsTheMotor()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 4) { SourceOhm = 0 }.WholeRoutine(12);
        SyntheticUnit locked = new(Diverter.Profile, 5) { SourceOhm = 0, Locked = true };
        locked.Go(StageKind.PortMoves, Diverter.Profile.Ports[1], 1, 0);
        Bench.Analysis.Extraction.RunExtraction extraction = new(Naming(Diverter.Profile), Diverter.Bench);
        foreach (Move move in unit.Moves)
        {
            extraction.AddMove(unit.Trace, move);
        }

        extraction.AddMove(locked.Trace, locked.Moves[0]);
        RunFeatures features = extraction.Complete(unit.Trace, SyntheticRun.Links(), SyntheticRun.Today);

        foreach ((string name, double truth) in new[] { ("motor.resistance_ohm", 12), ("motor.back_emf_v_s_per_rad", 0.045) })
        {
            Feature fitted = features.Of(name);
            Assert.InRange(Math.Abs(fitted.Value!.Value - truth), 0, 3 * fitted.StandardUncertainty!.Value);
            Assert.InRange(fitted.StandardUncertainty.Value / truth, 0, 0.02);
        }

        Assert.InRange(features.Value("motor.friction_nm"), 0.045 * 0.22, 0.045 * 0.26);
    }

    // One load, and every other move at the least supply, the rest at the greatest: nobody needs to hold it still.
    [Fact]
    public void Complete_TurnedAtTwoSupplies_FitsTheMotor()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 4) { SourceOhm = 0, Supply = move => move % 2 == 0 ? 20.4 : 28.8 }.WholeRoutine(24);

        RunFeatures features = SyntheticRun.Extract(unit, Naming(Diverter.Profile)).Features;

        foreach ((string name, double truth) in new[] { ("motor.resistance_ohm", 12), ("motor.back_emf_v_s_per_rad", 0.045) })
        {
            Feature fitted = features.Of(name);
            Assert.InRange(Math.Abs(fitted.Value!.Value - truth), 0, 3 * fitted.StandardUncertainty!.Value);
            Assert.InRange(fitted.StandardUncertainty.Value / truth, 0, 0.05);
        }
    }
}
