using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Units;

namespace Bench.Tests.Running.Provoking;

/// <summary>The diverter warmed until its winding is as warm as in use on a summer day; the moves before leave it cooler.</summary>
public class WarmStageTests
{
    private static readonly Profile Warm = Of(ProvokingProfile.With(StageKind.Warm));

    [Fact]
    public void Stage_HealthyUnit_StartsUntilTheEstimateIsWarmAndPasses()
    {
        RunRecord record = new VirtualRun(Warm).Execute();

        ProvocationResult warm = Assert.Single(record.Features!.Provocations!);
        Assert.Equal((StageKind.Warm, SequentialState.Shown, 0), (warm.Stage, warm.Test.State, warm.Test.Failed));
        MoveFeatures[] made = [.. record.Features.Moves.Where(m => m.Stage == StageKind.Warm)];
        Assert.Equal(warm.Test.Moves, made.Count(m => m.ToPort is not null));
        Assert.True(made.Count(m => m.ToPort is null) > 10);
        Assert.Contains(record.Events, e => e.Text.StartsWith("the winding is estimated at 95.", StringComparison.Ordinal));
        Assert.Equal(Disposition.Reusable, record.Judgement!.Disposition);
    }

    // S7: however it hurries, no window holds more than the profile's duty, and no move is longer than allowed.
    [Fact]
    public void Stage_Starting_KeepsDutyAndLongestOnTime()
    {
        RunRecord record = new VirtualRun(Warm).Execute();
        SafetyLimits safety = Warm.Safety;
        Assert.All(record.Moves, m => Assert.True(m.DriveOffS - m.DriveOnS <= safety.MostOnMs / 1000.0));
        foreach (Move end in record.Moves)
        {
            double from = end.DriveOffS - safety.DutyWindowS;
            double on = record.Moves.Sum(m => Math.Max(0, Math.Min(m.DriveOffS, end.DriveOffS) - Math.Max(m.DriveOnS, from)));
            Assert.True(on <= (safety.MostDuty * safety.DutyWindowS) + 0.5, $"{on} s on in the window that ends at {end.DriveOffS} s");
        }
    }

    [Fact]
    public void Stage_TimeIsOver_TestsAsWarmAsItGot()
    {
        Profile hurried = Warm with { Routine = [.. Warm.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 14 } : s)] };
        RunRecord record = new VirtualRun(hurried).Execute();

        Assert.DoesNotContain(record.Events, e => e.Text.StartsWith("the winding is estimated at 95.", StringComparison.Ordinal));
        Assert.True(record.Features!.Provocations![0].Test.Moves > 5);
    }

    [Fact]
    public void Stage_WindingThatOpensWhenWarm_IsFoundByItAndByNothingElse()
    {
        RunRecord[] records = [.. Enumerable.Range(1, 6).Select(seed => new VirtualRun(Warm, "warm-open-winding", (ulong)seed).Execute())];

        Assert.All(records, r =>
        {
            Assert.Equal((0, SequentialState.Shown), (r.Features!.Demonstration.Failed, r.Features.Demonstration.State));
            Assert.Equal(SequentialState.Refuted, r.Features.Provocations![0].Test.State);
            Assert.Contains(r.Judgement!.Findings, f => f.Feature.Name == ProvokedFeatures.FailedWarm && f.Decision == FindingDecision.DoesNotConform);
        });
    }

    // What opened by warmth closes again as it cools: no fuse and no relay of the bench does that.
    [Fact]
    public void Stage_WindingThatOpensWhenWarm_IsLetCoolUntilCurrentFlowsAgain()
    {
        RunRecord record = new VirtualRun(Warm, "warm-open-winding", 2).Execute();

        int opened = record.Moves.ToList().FindIndex(m => m.End == MoveEnd.NoCurrent);
        int closed = record.Moves.ToList().FindIndex(opened, m => m.End != MoveEnd.NoCurrent);
        Assert.True(closed > opened + 2);
        Assert.Contains(record.Events, e => e.Text.StartsWith("current flows again, ", StringComparison.Ordinal));
        Assert.True(record.OutputsConfirmedOff);
    }

    // The same moves without current, but the bench's own contacts: nothing comes back, and nobody is condemned for it.
    [Fact]
    public void Stage_BenchLosesItsContacts_HoldsTheUnit()
    {
        VirtualRun run = new(Warm);
        run.Journal.OnEvent = e =>
        {
            if (e.Text.StartsWith("the winding is estimated at", StringComparison.Ordinal))
            {
                run.Burn(up: true);
                run.Burn(up: false);
            }
        };
        RunRecord record = run.Execute();

        Assert.Equal(RunOutcome.Held, record.Outcome);
        Assert.Contains(record.Judgement!.Missing, m => m.Contains("the bench's own relays, wires and fuse", StringComparison.Ordinal));
        Assert.Contains(record.Events, e => e.Text.StartsWith("no further stages: no current flows any more, after ", StringComparison.Ordinal));
    }

    [Fact]
    public void Stage_ProfileNamesTheRise_IsNoneByResistanceWhereTheWindingDoesNotWarm()
    {
        Feature cold = Rise(new VirtualRun(Named).Execute());

        Assert.InRange(cold.Value!.Value, -3 * cold.StandardUncertainty!.Value, 3 * cold.StandardUncertainty.Value);
        Assert.InRange(cold.StandardUncertainty.Value, 0.2, 8);
    }

    // The simulated winding knows its own temperature: the median over the warm moves less that over the first moves.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Stage_WindingWarms_RiseByResistanceIsTheWindingsOwnWithinThreeStandardUncertainties(ulong seed)
    {
        (RunRecord record, double trueK) = Warmed(Named, new Warms(1), seed);
        Feature rise = Rise(record);

        Assert.True(trueK > 10, $"{trueK} K");

        // Of five seeds one would lie outside U once in four suites.
        Assert.InRange(rise.Value!.Value, trueK - (1.5 * rise.ExpandedUncertainty!.Value), trueK + (1.5 * rise.ExpandedUncertainty.Value));
        Assert.InRange(rise.ExpandedUncertainty.Value, 1, 20);
    }

    // Worst case: it begins at the greatest ambient, and until the first reading of a start takes the current of a motor that stands.
    [Theory]
    [InlineData(1, "lies above that, on the safe side")]
    [InlineData(1.4, "agrees")]
    [InlineData(2.2, "lies below that and would not have guarded the winding")]
    [InlineData(0, "lies above that, on the safe side")]
    public void Stage_EstimateBesideTheResistance_IsSaidToAgreeOrWhichWayItDoesNot(double share, string said)
    {
        (RunRecord record, _) = Warmed(Named, new Warms(share), 1);

        RunEvent told = Assert.Single(record.Events, e => e.Text.StartsWith(StageNotes.WindingRose, StringComparison.Ordinal));
        Assert.True(told.Text.Contains(said, StringComparison.Ordinal), told.Text);
    }

    private static Profile Named => Warm with
    {
        Limits = [.. Warm.Limits, new Limit { Feature = "winding.rise_k", Upper = 80, Rule = DecisionRule.Guarded, Severity = Severity.Note }],
    };

    private static Feature Rise(RunRecord record) => record.Features!.Features.Single(f => f.Name == "winding.rise_k");

    private static (RunRecord Record, double TrueK) Warmed(Profile profile, ICondition condition, ulong seed)
    {
        VirtualRun run = new(profile, condition, seed);
        List<double> cold = [], warm = [];
        bool heated = false;
        run.Journal.OnEvent = e =>
        {
            heated |= e.Text.StartsWith(StageNotes.WindingEstimated, StringComparison.Ordinal);
            if (e.Text == "drive: off, read back")
            {
                (heated ? warm : cold).Add(run.Unit.WindingRiseK);
            }
        };
        RunRecord record = run.Execute();

        // The first is the safe state before anything turned; those after the last warm move are none.
        int moves = record.Moves.Count(m => m.Stage == StageKind.Warm && m.ToPort is not null);
        return (record, Median(warm.Take(moves)) - Median(cold.Skip(1).Take(6)));
    }

    private static double Median(IEnumerable<double> values) => values.Order().ElementAt(values.Count() / 2);

    // A sound unit that sheds its losses by a share of the thermal resistances which its profile states.
    private sealed class Warms(double share) : ICondition
    {
        public string Id => "warms";

        public string Title => "healthy, its winding warms";

        private WarmingDesign Design => Warm.Safety.Winding is { Housing: { } housing } winding
            ? new WarmingDesign(3.0, share * winding.ThermalKPerW, winding.TimeConstantS, share * housing.ThermalKPerW, housing.TimeConstantS)
            : throw new InvalidOperationException("the profile has no winding and housing");

        public Installation Apply(Installation healthy, SeededRandom random) => healthy with
        {
            Unit = healthy.Unit with { Motor = healthy.Unit.Motor with { Warming = Design } },
        };
    }

    private static Profile Of(Profile profile) => profile with
    {
        Routine = [.. profile.Routine.Select(s => s.Kind == StageKind.Warm ? s with { MostS = 420, WarmCelsius = 95 } : s)],
    };
}
