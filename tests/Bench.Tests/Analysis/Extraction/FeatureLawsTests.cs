using System.Globalization;
using System.Text.Json;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Serialization;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Extraction;

/// <summary>What must hold of the features of any run, whatever the unit: who counts from elsewhere, measures in other units or looks from the other side sees the same unit.</summary>
public class FeatureLawsTests
{
    private const double Tolerance = 1e-9;

    /// <summary>Numbers of bins of the ring: their edges are not the same places seen from the other side.</summary>
    private const double BinTolerance = 0.02;

    /// <summary>Made-up runs a law is tried on: few in every build, BENCH_LAW_RUNS of them for a hunt.</summary>
    private static readonly int Runs = int.Parse(Environment.GetEnvironmentVariable("BENCH_LAW_RUNS") ?? "12", CultureInfo.InvariantCulture);

    private static readonly Profile Profile = Diverter.Profile with
    {
        Limits = [.. Diverter.Profile.Limits, .. FeatureCatalog.All.Where(d => d.OnlyWhereNamed).Select(d =>
            new Limit { Feature = d.Name, Upper = 1000, Rule = DecisionRule.Simple, Severity = Severity.Note })],
    };

    private static readonly Gen<SeenRun> AnyRun = Gen.Select(Gen.Int[1, 1000], Gen.Int[0, 799], Gen.Double[0, 12], Gen.Double[0, 4], Gen.Double[0.2, 0.3], Gen.Int[0, 3])
        .Select((seed, dead, slip, play, friction, dropouts) => SeenRun.Of(
            new SyntheticUnit(Profile, seed)
            {
                Dead = [dead],
                Lead = (move, sign) => (move > 30 ? slip : 0) + (sign * play / 2),
                Friction = p => Math.Abs(p - 300) < 15 ? 0.33 : friction,
                FeedbackFails = t => dropouts > 0 && t % (40.0 / dropouts) < 0.05,
                Supply = move => move % 2 == 0 ? 21 : 27,
            }.WholeRoutine(8),
            Profile,
            Diverter.Bench));

    [Fact]
    public void Features_RingTurned_AreTheSame() =>
        Gen.Select(AnyRun, Gen.Int[1, 799]).Sample((run, k) =>
        {
            RunFeatures here = run.Whole(), there = run.Turned(k).Whole();
            Same(here, there, _ => 1);
            Assert.All(Enumerable.Range(0, 800), c => Assert.Equal(here.Ring.States[c], there.Ring.States[(c + k) % 800]));
            Assert.Equal(here.Moves.Select(m => (m.LandingCount + k) % 800), there.Moves.Select(m => m.LandingCount));
        }, iter: Runs);

    [Fact]
    public void Features_CurrentInOtherUnits_ScaleAsTheirUnitsDo() =>
        Gen.Select(AnyRun, Gen.Double[0.6, 1.7]).Sample(
            (run, by) => Same(run.Whole(), run.InSmallerAmperes(by).Whole(), f => f.Unit switch
            {
                "A" or "J" => by,
                "Ω" => 1 / by,
                _ => f.Name == "motor.friction_nm" ? by : 1,
            }),
            iter: Runs);

    [Fact]
    public void Features_RunFedInParts_AreThoseOfTheWhole() =>
        AnyRun.Sample(run => Assert.Equal(JsonSerializer.Serialize(run.Whole(), BenchJson.Compact), JsonSerializer.Serialize(run.InParts(), BenchJson.Compact)), iter: Runs);

    // Errors of landings change sign, magnitudes keep theirs.
    [Fact]
    public void Features_SeenFromTheOtherSide_SwapUpAndDown() =>
        AnyRun.Sample(run => Same(run.Whole(), run.Mirrored().Whole(), f => f.Name == "landing.error_counts" ? -1 : 1, f => f.Name == "current.tight_spot_ratio" ? BinTolerance : Tolerance), iter: Runs);

    // What does not ask for the order keeps its numbers. Drift, step and play are magnitudes, and keep them within what the
    // order of several passes in one move leaves open: those stay in theirs. Four standard uncertainties, for two are left
    // once in twenty runs and three once in 2500.
    [Fact]
    public void Features_LastMoveFirst_KeepDriftStepAndPlay() =>
        AnyRun.Sample(
            run =>
            {
                string[] orderless = ["landing.reversal_counts", "landing.accuracy_counts", "current.running_a", "speed.running_counts_per_s", "ring.dead_counts", "motor.resistance_ohm"];
                string[] magnitudes = ["index.reversal_counts", "index.shift_counts", "index.step_counts", "index.drift_counts_per_100_moves"];
                RunFeatures forward = run.Whole(), backward = run.LastFirst().InParts();
                Assert.All(orderless, name => Same(forward.Of(name), backward.Of(name), 1, Tolerance));
                Assert.All(magnitudes, name => Assert.InRange(backward.Value(name) - forward.Value(name), -4 * forward.Of(name).StandardUncertainty!.Value, 4 * forward.Of(name).StandardUncertainty!.Value));
            },
            iter: Runs);

    private static void Same(RunFeatures a, RunFeatures b, Func<Feature, double> scale, Func<Feature, double>? tolerance = null)
    {
        Assert.Equal(a.Features.Count, b.Features.Count);
        foreach (Feature f in a.Features)
        {
            Same(f, b.Of(f.Name, f.Subject), scale(f), tolerance?.Invoke(f) ?? Tolerance);
        }
    }

    private static void Same(Feature a, Feature b, double scale, double tolerance)
    {
        Assert.True(a.IsAssessed == b.IsAssessed, $"{a.Name}: {a.NotAssessableBecause ?? b.NotAssessableBecause}");
        if (a is { Value: double value, StandardUncertainty: double u } && b is { Value: double other, StandardUncertainty: double otherU })
        {
            Assert.True(Near(value * scale, other, tolerance), FormattableString.Invariant($"{a.Name} {a.Subject}: {value} times {scale} became {other}"));
            Assert.True(Near(u * Math.Abs(scale), otherU, Math.Max(tolerance, 1e-6)), FormattableString.Invariant($"u of {a.Name} {a.Subject}: {u} times {scale} became {otherU}"));

            // A bin of angles holds its lower edge and not its upper: mirrored, it has other readings at its edges.
            Assert.True(tolerance >= BinTolerance || Near(a.Observations, b.Observations, tolerance), $"observations of {a.Name}: {a.Observations} became {b.Observations}");
        }
    }

    // A slope of nothing is what rounding leaves of counts in the thousands.
    private static bool Near(double expected, double got, double tolerance) => Math.Abs(expected - got) <= tolerance * Math.Max(Math.Abs(expected), 0.1);
}
