using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Motion;

public class MoveEvidenceTests
{
    [Theory]
    [InlineData(0.05, false, "motion.free_running_moves")]
    [InlineData(0.10, false, "motion.free_running_moves")]
    [InlineData(0.20, false, "motion.count_still_moves")]
    [InlineData(0.05, true, "motion.count_still_moves")]
    public void StillMove_CountStillUnderCurrent_IsToldByCurrentAndIndex(double amperes, bool indexToggles, string expected)
    {
        (Trace trace, Move move) = Built(MoveEnd.CountStill, _ => 40, amperes, indexToggles);

        RunFeatures f = Extracted(trace, move);

        string[] names = ["motion.locked_moves", "motion.no_current_moves", "motion.free_running_moves", "motion.count_still_moves"];
        Assert.All(names, n => Assert.Equal(n == expected ? 1 : 0, f.Value(n)));
    }

    [Theory]
    [InlineData(MoveEnd.Stalled, 1, "motion.locked_moves")]
    [InlineData(MoveEnd.NoCurrent, 0, "motion.no_current_moves")]
    public void StillMove_RunnersReason_IsTaken(MoveEnd end, double amperes, string expected)
    {
        (Trace trace, Move move) = Built(end, _ => 40, amperes, false);

        Assert.Equal(1, Extracted(trace, move).Value(expected));
    }

    [Fact]
    public void Course_DropoutOverTheSeam_IsUnwrappedBySpeedAndTime()
    {
        // Starting at 700 and passing 799 to 0, with nothing read for 150 ms over the seam.
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => 700 + (263 * t), 0.22, false, t => t is > 0.35 and < 0.5);

        MoveFeatures f = new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move);

        Assert.Equal(263, f.SpeedCountsPerS!.Value, 1.0);
        Assert.InRange(f.JumpCounts!.Value, 0, 1.5);
        Assert.Equal(1, f.FeedbackDropouts);
        Assert.False(f.Passed);
    }

    [Fact]
    public void Jump_CountSkipsTwentyForGood_IsFound()
    {
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => 10 + (263 * t) + (t > 0.5 ? 20 : 0), 0.22, false);

        Assert.Equal(20, new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move).JumpCounts!.Value, 3.0);
    }

    [Fact]
    public void Jump_CountLagsAndRecovers_IsNone()
    {
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => t is > 0.5 and < 0.56 ? 10 + (263 * 0.5) : 10 + (263 * t), 0.22, false);

        Assert.InRange(new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move).JumpCounts!.Value, 0, 3);
    }

    // Hidden sensors over 90 counts: the count is held for 20 counts at a time.
    [Fact]
    public void Jump_LongContaminatedArc_IsNone()
    {
        (Trace trace, Move move) = Built(
            MoveEnd.Landed, t => t is > 0.3 and < 0.64 ? 90 + (20 * Math.Floor(263 * (t - 0.3) / 20)) : 11 + (263 * t), 0.22, false);

        Assert.InRange(new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move).JumpCounts!.Value, 0, 6);
    }

    [Fact]
    public void Jump_TightArcSlowsByAThird_IsNone()
    {
        (Trace trace, Move move) = Built(
            MoveEnd.Landed, t => 10 + (263 * t) - (t > 0.5 ? 80 * (Math.Min(t, 0.7) - 0.5) : 0), 0.22, false);

        Assert.InRange(new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move).JumpCounts!.Value, 0, 3);
    }

    [Theory]
    [InlineData(7, 0)]
    [InlineData(4, 3)]
    [InlineData(12, -5)]
    public void Landing_CoastOtherThanExpected_IsTheUnitsShare(double expectedCoast, double unitShare)
    {
        // Runs at 263 counts/s to 1.0 s, then coasts 7 counts; the target stands 2 counts further than it came.
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => 10.5 + (263 * Math.Min(t, 1.0)) + (t > 1 ? 7 : 0), 0.22, false);
        move = move with { ExpectedCoastCounts = expectedCoast, TargetCount = 282 };

        MoveFeatures f = new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move);

        Assert.Equal(-2, f.LandingErrorCounts!.Value, 1e-9);
        Assert.Equal(unitShare, f.UnitErrorCounts!.Value, 0.9);
        Assert.Equal(f.LandingErrorCounts!.Value, f.UnitErrorCounts!.Value + f.BenchErrorCounts!.Value, 1e-9);
        Assert.Equal(Math.Abs(unitShare) < 4.5, f.Passed);
    }

    [Fact]
    public void Interruptions_CurrentVanishesTwice_AreTwo()
    {
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => 10 + (263 * t), 0.22, false, gone: t => t is (> 0.3 and < 0.36) or (> 0.6 and < 0.65));

        MoveFeatures f = new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(trace, move);

        Assert.Equal(2, f.CurrentInterruptions);
        Assert.Equal("the current was interrupted", f.FailedBecause);
    }

    [Fact]
    public void Interruptions_CurrentVanishesWhileTheUnitKeepsItsSpeed_AreTheMeters()
    {
        (Trace trace, Move move) = Built(MoveEnd.Landed, t => 10 + (263 * t), 0.22, false, gone: t => t is > 0.3 and < 0.6);

        RunFeatures features = Extracted(trace, move);

        Assert.Equal((0, 1), (features.Moves[0].CurrentInterruptions, features.Moves[0].MeterGaps));
        Assert.Contains("check the meter", features.Of("current.interruptions").NotAssessableBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void Interruptions_UnitSlowsDownWhileCurrentIsGone_AreTheUnits()
    {
        // Undriven from 0.3 s on it stops within 0.15 s, and goes on at 0.5 s.
        (Trace trace, Move move) = Built(
            MoveEnd.Landed, t => 10 + (263 * (Math.Min(t, 0.3) + Math.Max(0, t - 0.5))) + (20 * Math.Clamp((t - 0.3) / 0.15, 0, 1)), 0.22, false,
            gone: t => t is > 0.3 and < 0.5);

        Assert.Equal(1, Extracted(trace, move).Value("current.interruptions"));
    }

    // Drive on from 0.1 s for 1.0 s; position every 7 ms, meters every 21 ms; the course is a function of time since drive on.
    private static (Trace Trace, Move Move) Built(
        MoveEnd end, Func<double, double> course, double amperes, bool indexToggles, Func<double, bool>? silent = null, Func<double, bool>? gone = null)
    {
        Trace trace = new();
        for (int i = 0; i < 220; i++)
        {
            double time = 0.007 * i;
            double t = Math.Max(0, time - 0.1);
            bool on = time is >= 0.1 and < 1.1;
            DriveState drive = on ? DriveState.Up : DriveState.Off;
            bool lost = silent?.Invoke(t) == true;
            int count = Diverter.Profile.Ring.Place((long)Math.Floor(course(t)));
            trace.Add(new Sample(time, drive, lost ? FeedbackStatus.Silent : FeedbackStatus.Ok, lost ? -1 : count, double.NaN, double.NaN, IndexState.NotSampled));
            if (i % 3 == 0)
            {
                IndexState index = indexToggles && t > 0.4 ? IndexState.Closed : IndexState.Open;
                trace.Add(new Sample(time + 0.003, drive, FeedbackStatus.NotSampled, -1, on && gone?.Invoke(t) != true ? amperes : 0, 24, index));
            }
        }

        return (trace, new Move
        {
            Number = 1,
            Stage = StageKind.PortMoves,
            ToPort = "B",
            Direction = DriveDirection.Up,
            TargetCount = Diverter.Profile.Ring.Place((long)Math.Floor(course(9))),
            TravelCounts = 200,
            DriveOnS = 0.1,
            DriveOffS = 1.1,
            SettledS = 1.5,
            End = end,
            FirstSample = 0,
            SampleCount = trace.Count,
        });
    }

    private static RunFeatures Extracted(Trace trace, Move move)
    {
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        extraction.AddMove(trace, move);
        return extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
    }
}
