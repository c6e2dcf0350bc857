using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Switches;

/// <summary>Passes and sightings of switches on made readings, whose truth is known.</summary>
public class SwitchSightingsTests
{
    private const int East = 180;
    private const int South = 360;
    private const int West = 540;

    [Fact]
    public void Passes_MovePastTwoPorts_AreOfBothAndTheTarget()
    {
        RunFeatures f = Features(new SwitchTrace().Move(0, West));

        Assert.Equal([(East, 1, 1), (South, 1, 1), (West, 1, 1)], Passed(f));
        Assert.Equal(3 * 0.98, f.Ring.Expected.Sum(), 1e-12);
        MoveFeatures move = Assert.Single(f.Moves);
        Assert.True(move.Passed);
        Assert.Equal(West, move.LandingCount);
        Assert.Equal(242.0, move.SpeedCountsPerS!.Value, 1.0);
        Assert.Equal(1.0, Named(f, "switch.travel_time_ratio").Single().Value!.Value, 0.005);
        Assert.Equal(0.18, move.RunningCurrentA);
    }

    [Fact]
    public void Passes_SwitchOfPassedPortStaysOpen_IsAPassWithoutSighting()
    {
        SwitchTrace trace = new() { Spoil = (count, _) => count == South ? FeedbackStatus.BetweenPorts : null };
        Assert.Equal([(East, 1, 1), (South, 1, 0), (West, 1, 1)], Passed(Features(trace.Move(0, West))));
    }

    [Fact]
    public void Passes_FeedbackLostWherePortIsPassed_AreNone()
    {
        SwitchTrace trace = new() { Spoil = (count, _) => count == South ? FeedbackStatus.Silent : null };
        Assert.Equal([(East, 1, 1), (West, 1, 1)], Passed(Features(trace.Move(0, West))));
    }

    [Fact]
    public void Passes_NothingClosesAfterTheMissingPort_AreNoneByTimeAlone()
    {
        SwitchTrace trace = new() { Spoil = (count, _) => count == South ? FeedbackStatus.BetweenPorts : null };
        Assert.Equal([(East, 1, 1)], Passed(Features(trace.Move(0, 440, MoveEnd.OverTime))));
    }

    [Fact]
    public void Passes_ReadingsFartherApartThanTheSwitchIsWide_AreHeldAgainstNoSwitch()
    {
        // 24 counts at 242 counts/s are closed for 99 ms: a reading every 300 ms sees a pass in three.
        RunFeatures f = Features(new SwitchTrace(periodS: 0.3).Move(0, 720 * 2));
        Assert.All(Passed(f), p => Assert.InRange(f.Ring.Expected[p.Count] / p.Passes, 0.1, 0.34));
    }

    [Fact]
    public void Dead_NeverClosedInFewerPassesThanTheLeast_IsNotCalled()
    {
        SwitchTrace trace = new() { Spoil = (count, _) => count == South ? FeedbackStatus.BetweenPorts : null };
        for (int i = 0; i < 5; i++)
        {
            trace.Move(0, West);
        }

        RunFeatures few = Features(trace);
        Assert.Equal(SensorState.Untested, few.Ring.States[South]);
        Assert.Equal(0, Named(few, "switch.dead_ports").Single().Value);
        Assert.Equal(0, few.Ring.Coverage);
        Assert.True(few.Ring.RevolutionsToGo >= 1);

        RunFeatures enough = Features(trace.Move(0, West));
        Assert.Equal(SensorState.Dead, enough.Ring.States[South]);
        Assert.Equal(SensorState.Seen, enough.Ring.States[East]);
        Assert.Equal(("South", 1.0), (Named(enough, "switch.dead_ports").Single().Subject, Named(enough, "switch.dead_ports").Single().Value));
        Assert.Equal(0.75, enough.Ring.Coverage); // the port it began at was never passed
    }

    [Fact]
    public void Weak_ClosedInHalfOfThePasses_IsWeakNotDead()
    {
        bool open = false;
        SwitchTrace trace = new() { Spoil = (count, _) => count == South && open ? FeedbackStatus.BetweenPorts : null };
        for (int i = 0; i < 12; i++)
        {
            open = i % 2 == 0;
            trace.Move(0, West);
        }

        // P(at most 6 of 12 at 0.98) is 5e-8 (binomial), far below alpha/2 over four switches, 2.5e-4.
        RunFeatures f = Features(trace);
        Assert.Equal("South", Named(f, "switch.weak_ports").Single().Subject);
        Assert.Equal(0, Named(f, "switch.dead_ports").Single().Value);
    }

    [Fact]
    public void Width_SwitchOfHalfTheNominalWidth_IsHalf()
    {
        RunFeatures f = Features(new SwitchTrace(periodS: 0.004, widthCounts: 12).Move(0, West).Move(0, West).Move(0, West));
        Feature east = Named(f, "switch.width_ratio").Single(w => w.Subject == "East");
        Assert.Equal(0.5, east.Value!.Value, 0.03);

        // Both edges rectangular over a reading: 0.004 s · 242 / √12 · √2 = 0.395 counts; a median of three is no better than 0.7 of it.
        Assert.InRange(east.StandardUncertainty!.Value * 24, 0.2, 0.5);
        Assert.Equal("0 whole passes were seen; at least 3 are needed", Named(f, "switch.width_ratio").Single(w => w.Subject == "North").NotAssessableBecause);
    }

    [Fact]
    public void Contradictions_TwoClosedForAWhile_AreAnEpisodeAndNameThePortBeside()
    {
        SwitchTrace trace = new() { Spoil = (count, time) => count == South && time % 0.05 < 0.025 ? FeedbackStatus.SwitchesContradict : null };
        Feature contradictions = Named(Features(trace.Move(0, West)), "switch.contradictions").Single();
        Assert.InRange(contradictions.Value!.Value, 2, 3); // 99 ms of 25 ms in 50 ms
        Assert.Equal("South", contradictions.Subject);
    }

    private static (int Count, int Passes, int Sighted)[] Passed(RunFeatures f) =>
        [.. f.Ring.Passes.Select((p, i) => (i, p, f.Ring.Sightings[i])).Where(x => x.p > 0)];

    private static IEnumerable<Feature> Named(RunFeatures features, string name) => features.Features.Where(f => f.Name == name);

    private static RunFeatures Features(SwitchTrace trace)
    {
        RunExtraction extraction = new(SwitchTrace.Profile, Diverter.Bench);
        trace.Moves.ForEach(m => extraction.AddMove(trace.Trace, m));
        return extraction.Complete(trace.Trace, SyntheticRun.Links(), SyntheticRun.Today);
    }
}
