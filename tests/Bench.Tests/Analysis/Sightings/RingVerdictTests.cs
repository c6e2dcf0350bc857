using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Sightings;

public class RingVerdictTests
{
    [Fact]
    public void States_DeadSensors_AreNamedAndTheirNeighboursAreNot()
    {
        RingMap map = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 2) { Dead = [310, 311, 312, 555] }.WholeRoutine()).Features.Ring;

        Assert.Equal([310, 311, 312, 555], Places(map, SensorState.Dead));
        Assert.Empty(Places(map, SensorState.Weak));
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    public void States_ContaminatedArc_IsWeakNotDead(double seen)
    {
        RingMap map = SyntheticRun.Extract(
            new SyntheticUnit(Diverter.Profile, 4) { Dirty = [.. Enumerable.Range(300, 24)], DirtySeen = seen }.WholeRoutine()).Features.Ring;

        Assert.Empty(Places(map, SensorState.Dead));
        int[] weak = Places(map, SensorState.Weak);
        Assert.InRange(weak.Length, seen < 0.4 ? 20 : 6, 28);
        Assert.All(weak, c => Assert.InRange(c, 296, 328));
    }

    // Passed often enough, any sensor whose arc is not as wide as its neighbours' is told from chance: that is no fault.
    [Theory]
    [InlineData(0.66, 0)]
    [InlineData(0.3, 1)]
    public void States_OneCountSeenSeldom_IsWeakOnlyBelowSixTenths(double seen, int weak)
    {
        RingMap map = SyntheticRun.Extract(
            new SyntheticUnit(Diverter.Profile, 9) { Dirty = [310], DirtySeen = seen }.WholeRoutine(300)).Features.Ring;

        Assert.InRange(map.Passes[310], 300, 700);
        Assert.Equal(weak, map.States.Count(s => s is SensorState.Dead or SensorState.Weak));
    }

    [Fact]
    public void States_FewRevolutions_AreUntestedAndNothingIsCalledMissed()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 6) { Dead = [310] }.Rest(1);
        unit.Go(StageKind.Homing, Diverter.Profile.Ports[0], 1, 2);

        (RunFeatures f, var evidence) = SyntheticRun.Extract(unit);

        Assert.Equal(0, f.Value("ring.dead_counts"));
        Assert.Equal(0, evidence.Coverage);
        Assert.Equal(SensorState.Untested, f.Ring.States[310]);
        Assert.InRange(evidence.RevolutionsToGo, 8, 20);
    }

    // Readings at rest must not stand in for sightings: a unit that parks on every port sees them no better for it.
    [Fact]
    public void Passes_UnitAtRestOnPorts_CountSteadyMotionOnly()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 6).Rest(5);
        unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[1], 1, 0);
        unit.Rest(5);

        RingMap map = SyntheticRun.Extract(unit).Features.Ring;

        Assert.Equal(0, map.Passes[0]);
        Assert.Equal(0, map.Passes[200]);
        Assert.Equal(1, map.Passes[100]);
        Assert.InRange(map.Expected[100], 0.4, 0.65);
    }

    [Fact]
    public void Passes_FeedbackFailedOverACount_DoNotCount()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 6) { FeedbackFails = t => t is > 1.40 and < 1.45 }.Rest(1);
        unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[2], 1, 0);

        RingMap map = SyntheticRun.Extract(unit).Features.Ring;

        int skipped = Enumerable.Range(60, 300).Count(c => map.Passes[c] == 0);
        Assert.InRange(skipped, 12, 18);
    }

    // Ten healthy units, alpha 0.05 for any call on any ring: ten without a call has probability 0.6 even at the
    // stated alpha; more than three calls would contradict it (binomial tail 0.001).
    [Fact]
    public void States_HealthyUnits_AreNotCalledMissed()
    {
        int called = 0;
        for (int seed = 100; seed < 110; seed++)
        {
            RingMap map = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, seed).WholeRoutine(12)).Features.Ring;
            called += map.States.Any(s => s is SensorState.Dead or SensorState.Weak) ? 1 : 0;
        }

        Assert.InRange(called, 0, 3);
    }

    // Every move five times at the very same phase: 75 passes, worth 15. Sightings repeat, so a count missed once is
    // missed five times, which must not look like five misses.
    [Fact]
    public void States_PassesAtOnePhase_ArePartlyOneAndTheSame()
    {
        Profile profile = Diverter.Profile;
        SyntheticUnit unit = new SyntheticUnit(profile, 31).WholeRoutine(0);
        RunExtraction once = new(profile, Diverter.Bench);
        RunExtraction repeated = new(profile, Diverter.Bench);
        foreach (Move move in unit.Moves.Take(12))
        {
            once.AddMove(unit.Trace, move);
            for (int i = 0; i < 5; i++)
            {
                repeated.AddMove(unit.Trace, move);
            }
        }

        RingMap map = repeated.Complete(unit.Trace, SyntheticRun.Links(), SyntheticRun.Today).Ring;

        Assert.Equal(0, map.States.Count(s => s is SensorState.Dead or SensorState.Weak));
        Assert.InRange(repeated.Evidence.Coverage, 0, once.Evidence.Coverage + 0.1);
    }

    private static int[] Places(RingMap map, SensorState state) =>
        [.. Enumerable.Range(0, map.States.Count).Where(c => map.States[c] == state)];
}
