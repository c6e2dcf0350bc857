using Bench.Simulation.Conditions;
using Bench.Simulation.Units;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Conditions;

/// <summary>Each condition shows its physical sign at the plant, before any wire or judge.</summary>
public class ConditionTests
{
    private static readonly ulong[] Seeds = [1, 2, 3, 4, 5];

    public static TheoryData<ulong> AnySeed => new(Seeds);

    [Fact]
    public void All_Ids_AreTheTwentySixAndDiffer()
    {
        Assert.Equal(26, ConditionCatalog.All.Count);
        Assert.Equal(26, ConditionCatalog.All.Select(c => c.Id).Distinct().Count());
        Assert.All(ConditionCatalog.All, c => Assert.Same(c, ConditionCatalog.Find(c.Id)));
    }

    [Fact]
    public void All_Ids_StandInTheDocument()
    {
        string text = RepositoryFiles.Text("docs/simulation.md");
        Assert.All(ConditionCatalog.All, c => Assert.Contains($"| `{c.Id}` |", text, StringComparison.Ordinal));
    }

    [Fact]
    public void Find_UnknownId_NamesAllThereAre()
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() => ConditionCatalog.Find("dead-sensor"));
        Assert.Contains("'dead-sensor'", e.Message, StringComparison.Ordinal);
        Assert.Contains("low-bench-supply", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Apply_SameSeed_MakesTheSameThing()
    {
        foreach (ICondition condition in ConditionCatalog.All)
        {
            Trial a = new(condition.Id, 7);
            Trial b = new(condition.Id, 7);
            a.Plant.CommandUp(true);
            b.Plant.CommandUp(true);
            a.Plant.AdvanceTo(2.0);
            b.Plant.AdvanceTo(2.0);
            Assert.Equal(a.Plant.ReportedCount, b.Plant.ReportedCount);
            Assert.Equal(a.Plant.EncoderPosition, b.Plant.EncoderPosition);
            Assert.Equal(a.Plant.SupplyCurrentA, b.Plant.SupplyCurrentA);
        }
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void Healthy_OneTurn_ReportsEveryCount(ulong seed)
    {
        Trial t = new("healthy", seed);
        Assert.Equal(t.Ring.Counts, t.CountsSeenInTurns(1.02).Count);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void DeadSensors_ManyTurns_NeverReportTwoToSixCounts(ulong seed)
    {
        Trial t = new("dead-sensors", seed);
        Assert.InRange(t.Ring.Counts - t.CountsSeenInTurns(4.0).Count, 2, 6);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void ContaminatedSensors_OneTurn_MissesManyThatOtherTurnsSee(ulong seed)
    {
        Trial t = new("contaminated-sensors", seed);
        int first = t.Ring.Counts - t.CountsSeenInTurns(1.02).Count;
        int second = t.Ring.Counts - t.CountsSeenInTurns(1.02).Count;
        int all = t.Ring.Counts - t.CountsSeenInTurns(15.0).Count;
        Assert.InRange(first, 10, 85);
        Assert.InRange(second, 10, 85);
        Assert.InRange(all, 0, 30);
        Assert.True(all < first / 2.0);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void CouplingSlip_PortAfterPort_LeavesTheValveBehindByWholeTeeth(ulong seed)
    {
        Trial t = new("coupling-slip", seed);
        double tooth = t.Installation.Unit.Coupling.ToothCounts;
        Assert.InRange(tooth, 10.0, 30.0);
        t.Turn(3.0);
        double behind = t.BehindBetweenTeeth();
        Assert.True(behind > 0.9 * tooth);
        Assert.InRange(Math.IEEERemainder(behind, tooth), -1.0, 1.0);

        // Not at every seat: twelve were passed.
        Assert.InRange(behind / tooth, 1.0, 14.0);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void Healthy_PortAfterPort_ValveFollowsWithinItsPlay(ulong seed)
    {
        Trial t = new("healthy", seed);
        t.Turn(3.0);
        Assert.InRange(t.Behind, -0.1, 1.6);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void DriftingZero_TenTurns_ShiftsTheReadingByThreeToFiveCounts(ulong seed)
    {
        Trial t = new("drifting-zero", seed);
        t.Turn(10.0);
        t.Stop();
        double reading = t.Ring.Difference(t.Plant.ReportedCount, t.Ring.Place(t.Plant.EncoderPosition));
        Assert.InRange(Math.Abs(reading), 2.4, 5.7);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void Backlash_AfterReversal_ValveWaitsTenToTwentyCounts(ulong seed)
    {
        Trial t = new("backlash", seed);
        t.Turn(0.5);
        t.Stop();
        double valve = t.Plant.ValvePosition;
        double encoder = t.Plant.EncoderPosition;
        t.Plant.CommandDown(true);
        while (t.Plant.ValvePosition >= valve)
        {
            t.Advance(0.0005);
        }

        Assert.InRange(encoder - t.Plant.EncoderPosition, 10.0, 20.3);
    }

    [Theory]
    [InlineData("seized-valve")]
    [InlineData("seized-motor")]
    public void Seized_DriveOn_DrawsNearVoltageOverResistanceAndStandsStill(string id)
    {
        foreach (ulong seed in Seeds)
        {
            Trial t = new(id, seed);
            double valve = t.Plant.ValvePosition;
            t.Drive(0.5);
            UnitDesign unit = t.Installation.Unit;
            double expected = 24.0 / (unit.Motor.WindingOhm + unit.Connector.ContactOhm + 0.25);
            Assert.Equal(expected, t.Plant.SupplyCurrentA, 1e-6);
            Assert.Equal(0.0, t.Plant.MotorRadPerS);

            // The rotor's swing through the play may knock a stuck valve on by a fraction of a count.
            Assert.Equal(valve, t.Plant.ValvePosition, 1.0);
        }
    }

    [Fact]
    public void SeizedValve_DriveOn_ShaftsTurnThroughTheirPlayButASeizedMotorDoesNot()
    {
        Trial valve = new("seized-valve", 3);
        Trial motor = new("seized-motor", 3);
        double before = valve.Plant.EncoderPosition;
        double beforeMotor = motor.Plant.EncoderPosition;
        valve.Drive(0.5);
        motor.Drive(0.5);
        Assert.InRange(valve.Plant.EncoderPosition - before, 0.05, 2.0);
        Assert.Equal(beforeMotor, motor.Plant.EncoderPosition);
    }

    [Fact]
    public void OpenWinding_DriveOn_NoCurrentNoMotion()
    {
        Trial t = new("open-winding", 1);
        double before = t.Plant.EncoderPosition;
        t.Drive(0.5);
        Assert.Equal(0.0, t.Plant.SupplyCurrentA);
        Assert.Equal(before, t.Plant.EncoderPosition);
        Assert.Equal(24.0, t.Plant.TerminalV);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void WornBrushes_Turning_CurrentDropsOutTensOfTimesASecond(ulong seed)
    {
        Trial t = new("worn-brushes", seed);
        t.Drive(1.0);
        Assert.InRange(t.DropoutsWithin(5.0) / 5.0, 12.0, 50.0);
        Trial healthy = new("healthy", seed);
        healthy.Drive(1.0);
        Assert.Equal(0, healthy.DropoutsWithin(5.0));
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void ContactResistance_Turning_IsSlowerAtFullTerminalVoltageAndStartsWithLessCurrent(ulong seed)
    {
        Trial t = new("contact-resistance", seed);
        Trial healthy = new("healthy", seed);
        Assert.InRange(t.PeakInrush() / healthy.PeakInrush(), 0.4, 0.75);
        Assert.True(t.Plant.TerminalV > 23.5);
        Assert.InRange(t.CountsPerS() / healthy.CountsPerS(), 0.85, 0.96);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void IntermittentConnector_TwoMinutesOfTurning_OpensAboutEverySixToTenSeconds(ulong seed)
    {
        Trial t = new("intermittent-connector", seed);
        int feedback = 0;
        int supply = 0;
        bool answered = true;
        bool flowed = true;
        t.Drive(0.3);
        while (t.Plant.TimeS < 120.0)
        {
            t.Advance(0.002);
            feedback += answered && !t.Plant.FeedbackAnswers ? 1 : 0;
            supply += flowed && t.Plant.SupplyCurrentA == 0.0 ? 1 : 0;
            answered = t.Plant.FeedbackAnswers;
            flowed = t.Plant.SupplyCurrentA > 0.0;
        }

        // Poisson with mean 12 to 20: beyond these bounds once in some thousands.
        Assert.InRange(feedback + supply, 4, 38);
        Assert.True(feedback > supply);
    }

    [Fact]
    public void DeadFeedback_Variants_FreezeOrFallSilent()
    {
        Trial frozen = new("dead-feedback:frozen", 2);
        int count = frozen.Plant.ReportedCount;
        frozen.Turn(0.4);
        Assert.Equal(count, frozen.Plant.ReportedCount);
        Assert.True(frozen.Plant.FeedbackAnswers);
        Assert.False(new Trial("dead-feedback:silent", 2).Plant.FeedbackAnswers);
        Assert.Equal(2, Enumerable.Range(0, 20).Select(s => new Trial("dead-feedback", (ulong)s).Plant.FeedbackAnswers).Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void NoisyLink_Frames_AreHitAboutSixInAHundred(ulong seed) =>
        Assert.InRange(new Trial("noisy-link", seed).Installation.LineErrorShare, 0.05, 0.07);

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void TightSpot_OneTurn_CurrentRisesOnceAwayFromPorts(ulong seed)
    {
        Trial t = new("tight-spot", seed);
        Trial healthy = new("healthy", seed);
        (double ratio, int at) = t.GreatestRatio(healthy);
        Assert.InRange(ratio, 1.3, 2.2);
        Assert.All(Families.Diverter.Ports, p => Assert.True(Math.Abs(t.Ring.Difference(at, p.Count)) > 40));
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void StrippedGear_DriveOn_MotorRunsNearlyFreeAndTheValveStandsStill(ulong seed)
    {
        Trial t = new("stripped-gear", seed);
        double valve = t.Plant.ValvePosition;
        t.Drive(1.0);
        Assert.InRange(t.Plant.SupplyCurrentA, 0.04, 0.12);
        Assert.True(t.Plant.MotorRadPerS > 480.0);
        Assert.Equal(valve, t.Plant.ValvePosition, 1.0);
    }

    [Theory]
    [MemberData(nameof(AnySeed))]
    public void LowBenchSupply_AtRest_TerminalsShowIt(ulong seed) =>
        Assert.InRange(new Trial("low-bench-supply", seed).Plant.TerminalV, 18.0, 19.5);
}
