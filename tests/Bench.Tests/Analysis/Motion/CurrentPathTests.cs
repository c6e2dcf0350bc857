using Bench.Analysis.Extraction;
using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Returns;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Motion;

// A relay contact that does not make looks like an open winding, and reads back as commanded: what tells them apart.
public class CurrentPathTests
{
    private const double Runs = 0.22;

    [Fact]
    public void NoCurrent_FromTheFirstMoveBothWaysAtAProvenPosition_IsTheUnits() =>
        Assert.Equal(4, Extracted(0.5, (Up, 0), (Down, 0), (Up, 0), (Up, 0)).Value("motion.no_current_moves"));

    [Theory]
    [InlineData(null)]
    [InlineData(1.5)]
    public void NoCurrent_AtAPositionThatTurnedNoUnitForAnHour_IsHeld(double? hours)
    {
        RunFeatures features = Extracted(hours, (Up, 0), (Down, 0), (Up, 0), (Up, 0));
        Assert.Contains("no unit has turned at position", Because(features), StringComparison.Ordinal);
        Judgement judgement = Judge.Decide(features, Diverter.Profile, Symptom.Constant);
        Assert.Equal(RunOutcomeOf(judgement), (null, ClaimOutcome.Undetermined));
        Assert.Contains(judgement.Missing, m => m.Contains("Run a known good unit at this position", StringComparison.Ordinal));
    }

    [Fact]
    public void NoCurrent_ForGoodAfterItFlowed_IsNotYetTheUnits() =>
        Assert.Contains("current flowed until move 2 and never after", Because(Extracted(0.5, (Up, Runs), (Down, 0), (Up, 0), (Down, 0))), StringComparison.Ordinal);

    [Fact]
    public void NoCurrent_OneWayOnly_IsTheBenchs() =>
        Assert.Contains(
            "current stopped flowing towards falling counts",
            Because(Extracted(0.5, (Up, Runs), (Down, 0), (Up, Runs), (Down, 0))), StringComparison.Ordinal);

    [Fact]
    public void NoCurrent_OneWayAfterTheOther_IsTheBenchs() =>
        Assert.Contains(
            "current stopped flowing towards falling counts",
            Because(Extracted(0.5, (Up, Runs), (Down, Runs), (Up, 0), (Down, Runs), (Up, 0), (Down, 0))), StringComparison.Ordinal);

    [Fact]
    public void NoCurrent_NowAndThenEitherWay_IsTheUnits() =>
        Assert.Equal(2, Extracted(0.5, (Up, Runs), (Down, 0), (Up, 0), (Down, Runs), (Up, Runs)).Value("motion.no_current_moves"));

    private static DriveDirection Up => DriveDirection.Up;

    private static DriveDirection Down => DriveDirection.Down;

    private static string Because(RunFeatures features) =>
        features.Features.Single(f => f.Name == "motion.no_current_moves").NotAssessableBecause ?? "";

    private static (Disposition?, ClaimOutcome) RunOutcomeOf(Judgement judgement) => (judgement.Disposition, judgement.Claim);

    // One second a move, meters every 21 ms, position every 7 ms at 263 counts/s where current flows.
    private static RunFeatures Extracted(double? lastDroveHours, params (DriveDirection Direction, double Amperes)[] moves)
    {
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench with { LastDroveHours = lastDroveHours });
        Trace trace = new();
        double count = 100;
        for (int m = 0; m < moves.Length; m++)
        {
            (DriveDirection direction, double amperes) = moves[m];
            int first = trace.Count;
            double onS = (2.0 * m) + 0.1;
            for (int i = 0; i < 200; i++)
            {
                double timeS = (2.0 * m) + (0.007 * i);
                bool on = timeS >= onS && timeS < onS + 1;
                DriveState drive = !on ? DriveState.Off : direction == Up ? DriveState.Up : DriveState.Down;
                count += on && amperes > 0 ? (direction == Up ? 1 : -1) * 263 * 0.007 : 0;
                trace.Add(new Sample(timeS, drive, FeedbackStatus.Ok, Diverter.Profile.Ring.Place((long)Math.Floor(count)), double.NaN, double.NaN, IndexState.NotSampled));
                if (i % 3 == 0)
                {
                    trace.Add(new Sample(timeS + 0.003, drive, FeedbackStatus.NotSampled, -1, on ? amperes : 0, 24, IndexState.Open));
                }
            }

            extraction.AddMove(trace, new Move
            {
                Number = m + 1,
                Stage = StageKind.PortMoves,
                ToPort = "B",
                Direction = direction,
                TargetCount = Diverter.Profile.Ring.Place((long)Math.Floor(count)),
                TravelCounts = direction == Up ? 263 : -263,
                DriveOnS = onS,
                DriveOffS = onS + 1,
                SettledS = onS + 1.3,
                End = amperes > 0 ? MoveEnd.Landed : MoveEnd.NoCurrent,
                FirstSample = first,
                SampleCount = trace.Count - first,
            });
        }

        return extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
    }
}
