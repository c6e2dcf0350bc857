using System.Text.Json;
using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Extraction;

public class RunExtractionTests
{
    [Fact]
    public void Complete_HealthyUnit_FindsWhatItWasMadeOf()
    {
        (RunFeatures f, EvidenceState e) = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine());

        Assert.True(e.Enough, e.Because);
        Assert.Equal(SequentialState.Shown, e.Sequential);
        Assert.Equal(1, e.Coverage);
        Assert.Equal(0, e.RevolutionsToGo);
        Assert.All(f.Moves, m => Assert.True(m.Passed, m.FailedBecause));
        Assert.Equal(0, f.Value("ring.dead_counts"));
        Assert.Equal(0, f.Value("ring.weak_counts"));
        Assert.Equal(0.22, f.Value("current.running_a"), 0.003);
        Assert.Equal(0.4, f.Value("bench.supply_source_ohm"), 0.05);
        Assert.Equal(24, f.Value("bench.supply_open_v"), 0.01);
        Assert.Equal(0.003, f.Value("current.noise_a"), 0.0006);
        Assert.Equal(7, f.Value("coast.counts"), 0.6);
        Assert.InRange(f.Value("current.tight_spot_ratio"), 0.98, 1.03);
        Assert.InRange(f.Value("winding.resistance_ohm"), 11.7, 12.3);
        Assert.InRange(f.Value("index.reversal_counts"), 0, 2);
        Assert.InRange(f.Value("index.step_counts"), 0, 4);
        Assert.InRange(f.Value("count.jump_counts"), 0, 1.5);
        Assert.Equal(136, f.PositionRateHz!.Value, 10.0);
        Assert.All(Diverter.Profile.Ports, p => Assert.InRange(f.Value("landing.error_counts", p.Name), -1.5, 1.5));
    }

    [Fact]
    public void Complete_SlowMeters_SaysInrushIsNotAssessable()
    {
        (RunFeatures f, _) = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(0));

        Assert.False(f.Of("current.inrush_a").IsAssessed);
        Assert.Contains("needs 1000", f.Of("current.inrush_a").NotAssessableBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void Complete_StoredRunExtractedAgain_GivesEqualResults()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 5) { Dead = [77], Lead = (m, _) => m / 10 }.WholeRoutine(6);

        string live = JsonSerializer.Serialize(SyntheticRun.Extract(unit).Features, BenchJson.Compact);
        string again = JsonSerializer.Serialize(SyntheticRun.Extract(unit).Features, BenchJson.Compact);

        Assert.Equal(live, again);
    }

    [Fact]
    public void Complete_NoMovesAtAll_HasEveryFeatureAndNoNumberMadeUp()
    {
        (RunFeatures f, EvidenceState e) = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).Rest(1));

        Assert.All(FeatureCatalog.All.Where(d => !d.OnlyWhereNamed), d => Assert.Contains(f.Features, x => x.Name == d.Name));
        Assert.False(f.Of("current.running_a").IsAssessed);
        Assert.False(f.Of("ring.dead_counts").IsAssessed);
        Assert.False(e.Enough);
        Assert.NotEmpty(JsonSerializer.Serialize(f, BenchJson.Compact));
    }

    [Fact]
    public void Complete_RingTurned_GivesTheSameNumbers()
    {
        Profile turned = Diverter.Profile with { Ports = [.. Diverter.Profile.Ports.Select(p => p with { Count = (p.Count + 350) % 800 })] };
        SyntheticUnit plain = new SyntheticUnit(Diverter.Profile, 8) { Dead = [310] }.WholeRoutine(12);
        SyntheticUnit moved = new SyntheticUnit(turned, 8) { Dead = [660], IndexAt = 450, StartCount = 350 }.WholeRoutine(12);

        RunFeatures a = SyntheticRun.Extract(plain).Features;
        RunFeatures b = SyntheticRun.Extract(moved, turned).Features;

        Assert.Equal(SensorState.Dead, a.Ring.States[310]);
        Assert.Equal(SensorState.Dead, b.Ring.States[660]);
        foreach (string name in new[] { "ring.dead_counts", "ring.weak_counts", "index.reversal_counts", "landing.accuracy_counts", "speed.running_counts_per_s" })
        {
            Assert.Equal(a.Value(name), b.Value(name), 0.2);
        }
    }

    [Fact]
    public void Complete_CurrentsScaled_ScalesWhatIsACurrent()
    {
        RunFeatures one = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 9).WholeRoutine(0)).Features;
        RunFeatures two = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 9) { CurrentScale = 2 }.WholeRoutine(0)).Features;

        Assert.Equal(2, two.Value("current.running_a") / one.Value("current.running_a"), 0.01);
        Assert.Equal(2, two.Value("current.noise_a") / one.Value("current.noise_a"), 0.1);
        Assert.Equal(2, two.Value("energy.per_revolution_j") / one.Value("energy.per_revolution_j"), 0.01);
        Assert.Equal(1, two.Value("current.tight_spot_ratio") / one.Value("current.tight_spot_ratio"), 0.01);
    }

    [Fact]
    public void AddMove_LockedUnit_StopsAfterFourAndMeasuresTheWinding()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 3) { Locked = true }.Rest(1);
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        for (int i = 0; i < 4; i++)
        {
            extraction.AddMove(unit.Trace, unit.Go(StageKind.Homing, Diverter.Profile.Ports[1], 1, 0));
        }

        RunFeatures f = extraction.Complete(unit.Trace, SyntheticRun.Links(), SyntheticRun.Today);

        Assert.True(extraction.Evidence.Enough);
        Assert.Equal(4, extraction.Evidence.StillInARow);
        Assert.Equal(4, f.Value("motion.locked_moves"));
        Assert.Equal((24 - 0.8) / 2.0, f.Value("winding.resistance_ohm"), 0.05);
        Assert.False(f.Of("current.running_a").IsAssessed);
    }

    // Refuted by two wrong landings: the ring may be why, so the run goes on to test it. Refuted by dropouts: it ends.
    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void Evidence_RefutedEarly_IsEnoughUnlessTheRingMayBeWhy(bool landsWrong, bool enough)
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 3) { FeedbackFails = t => !landsWrong && t % 1 < 0.04 }.Rest(1);
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        for (int i = 1; i <= 3; i++)
        {
            Move move = unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[i], 1, 1);
            extraction.AddMove(unit.Trace, landsWrong ? move with { ExpectedCoastCounts = 25 } : move);
        }

        Assert.Equal(SequentialState.Refuted, extraction.Evidence.Sequential);
        Assert.Equal(enough, extraction.Evidence.Enough);
    }

    [Fact]
    public void AddMove_InterruptedByBench_DoesNotCount()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 3).Rest(1);
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);

        MoveFeatures f = extraction.AddMove(unit.Trace, unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[1], 1, 0, MoveEnd.Interrupted));

        Assert.False(f.Counts);
        Assert.False(f.Passed);
        Assert.Null(f.FailedBecause);
        Assert.Equal(0, extraction.Complete(unit.Trace, [], SyntheticRun.Today).Demonstration.Moves);
    }

    [Fact]
    public void AddMove_SamplesNotInTrace_IsRefused()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 3).Rest(1);
        Move move = unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[1], 1, 0) with { SampleCount = 100_000 };

        Assert.Throws<ArgumentException>(() => new RunExtraction(Diverter.Profile, Diverter.Bench).AddMove(unit.Trace, move));
    }

    [Fact]
    public void Complete_CalibrationLapsed_SaysByHowManyDays()
    {
        RunFeatures f = new RunExtraction(Diverter.Profile, Diverter.Bench)
            .Complete(new SyntheticUnit(Diverter.Profile, 1).Rest(1).Trace, SyntheticRun.Links(), new DateOnly(2027, 1, 13));

        Assert.Equal(3, f.Value("bench.calibration_overdue_days"));
    }

    [Fact]
    public void Complete_BadLink_SaysNothingOfTheFeedback()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 4) { FeedbackFails = t => t % 1 < 0.03 }.WholeRoutine(0);

        RunFeatures f = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 300, feedbackFailed: 900)).Features;

        Assert.Equal(0.03, f.Value("bench.link_error_share"), 1e-9);
        Assert.False(f.Of("feedback.dropouts").IsAssessed);
        Assert.False(f.Of("feedback.silent_share").IsAssessed);
        Assert.False(f.Of("demonstration.failed_moves").IsAssessed);
        Assert.Contains("the link itself is bad", f.Of("feedback.dropouts").NotAssessableBecause, StringComparison.Ordinal);
    }

    // 30,000 readings, 20 failures among 10,000 exchanges of the bench: two in a row once is what such a link does. The
    // meters are read every third slot here, so two failures witnessed by them take 50 ms.
    [Fact]
    public void Complete_DropoutsOnALinkThatFailsNowAndThen_AreNotBlamedOnTheUnit()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t is (> 10 and < 10.050) or (> 20 and < 20.2) }.WholeRoutine();

        Feature blamed = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 0, feedbackFailed: 2)).Features.Of("feedback.dropouts");
        Feature excused = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 20, feedbackFailed: 60)).Features.Of("feedback.dropouts");

        Assert.Equal(2, blamed.Value);
        Assert.False(excused.IsAssessed);
    }

    [Theory]
    [InlineData(null, false)]
    [InlineData(30.0, false)]
    [InlineData(0.5, true)]
    public void Complete_FeedbackAloneOnItsLinkAndSilent_IsTheUnitsOnlyAtAProvenPosition(double? hours, bool assessed)
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t > 10 }.WholeRoutine(4);
        LinkCounts[] links = [.. SyntheticRun.Links(ownFailed: 0, feedbackFailed: 300).Select(l => l.IsFeedback ? l with { Link = "feedback-adapter" } : l)];
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench with { LastDroveHours = hours });
        foreach (Move move in unit.Moves)
        {
            extraction.AddMove(unit.Trace, move);
        }

        Feature silence = extraction.Complete(unit.Trace, links, SyntheticRun.Today).Of("feedback.silent_s");
        Assert.Equal(assessed, silence.IsAssessed);
        Assert.Equal(!assessed, silence.NotAssessableBecause?.Contains("Run a known good unit at this position", StringComparison.Ordinal) == true);
    }

    // One exchange in ten thousand failed on either side: nothing to hold against the feedback, and nothing to hold the unit for.
    [Fact]
    public void Complete_OneFailedReadingOnALinkThatFailedOnceToo_StaysGood()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t is > 10 and < 10.008 }.WholeRoutine();
        RunFeatures features = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 1, feedbackFailed: 1)).Features;
        Assert.Equal(0, features.Value("feedback.dropouts"));
        Assert.InRange(features.Value("feedback.silent_s"), 0, 0.1);
        Assert.Equal(0, features.Value("demonstration.failed_moves"));
    }

    // Two failed readings in a row are what a bad spell of the link can do, however well the rest of it went.
    [Fact]
    public void Complete_OneShortDropout_IsNotYetBlamedOnTheUnit()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t is > 10 and < 10.050 }.WholeRoutine();
        Feature dropouts = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 0, feedbackFailed: 2)).Features.Of("feedback.dropouts");
        Assert.Contains("can still be bad spells of the link", dropouts.NotAssessableBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void Complete_DriveTurnsOneWay_HasNoReversalAndStillReachesTheEnd()
    {
        Profile single = Diverter.Profile with { Drive = DriveKind.Single, Ports = [new("1", 0), new("2", 240), new("3", 480)] };

        (RunFeatures f, EvidenceState e) = SyntheticRun.Extract(new SyntheticUnit(single, 21).WholeRoutine(24), single);

        Assert.True(e.Enough, e.Because);
        Assert.Equal("the drive turns one way only", f.Of("index.reversal_counts").NotAssessableBecause);
        Assert.InRange(f.Value("landing.repeatability_counts"), 0, 3);
        Assert.InRange(f.Value("index.shift_counts"), 0, 2);
    }

    [Fact]
    public void AddMove_RunSplitInTwo_SightingsAddUp()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 13) { Dirty = [.. Enumerable.Range(40, 30)] }.WholeRoutine(4);
        int half = unit.Moves.Count / 2;
        RingMap all = Sightings(unit, unit.Moves);
        RingMap first = Sightings(unit, unit.Moves[..half]);
        RingMap second = Sightings(unit, unit.Moves[half..]);

        for (int c = 0; c < all.Passes.Count; c++)
        {
            Assert.Equal(all.Passes[c], first.Passes[c] + second.Passes[c]);
            Assert.Equal(all.Sightings[c], first.Sightings[c] + second.Sightings[c]);
            Assert.Equal(all.Expected[c], first.Expected[c] + second.Expected[c], 1e-9);
        }
    }

    // Whatever a damaged or half-written run holds, there is an answer, every number in it is finite, and it can be judged.
    [Fact]
    public void Complete_AnyJunk_GivesFiniteAnswers() =>
        Gen.Select(
            Gen.Select(Gen.Double[-0.001, 0.05], Gen.Enum<FeedbackStatus>(), Gen.Int[0, 799], Gen.Double[-3, 3], Gen.Enum<IndexState>(), Gen.Enum<DriveState>()).Array[0, 120],
            Gen.Select(Gen.Double[-1, 4], Gen.Double[-1, 4], Gen.Enum<MoveEnd>(), Gen.Enum<DriveDirection>(), Gen.Bool).Array[0, 6])
            .Sample((samples, moves) =>
            {
                Trace trace = new();
                double time = 0;
                foreach ((double step, FeedbackStatus status, int count, double amperes, IndexState index, DriveState drive) in samples)
                {
                    time += step;
                    trace.Add(new Sample(time, drive, status, status == FeedbackStatus.Ok ? count : -1, amperes < 0 ? double.NaN : amperes, 24, index));
                }

                RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
                int number = 0;
                foreach ((double on, double off, MoveEnd end, DriveDirection direction, bool expects) in moves)
                {
                    extraction.AddMove(trace, new Move
                    {
                        Number = ++number,
                        Stage = StageKind.PortMoves,
                        ToPort = "B",
                        Direction = direction,
                        TargetCount = 200,
                        TravelCounts = 200,
                        DriveOnS = on,
                        DriveOffS = off,
                        SettledS = off + 0.3,
                        End = end,
                        ExpectedCoastCounts = expects ? 7 : null,
                        FirstSample = 0,
                        SampleCount = trace.Count,
                    });
                }

                RunFeatures features = extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
                Assert.NotEmpty(JsonSerializer.Serialize(features, BenchJson.Compact));
                Assert.NotEmpty(JsonSerializer.Serialize(
                    Bench.Analysis.Judging.Judge.Decide(features, Diverter.Profile, Bench.Model.Returns.Symptom.Constant), BenchJson.Compact));
            });

    [Fact]
    public void Complete_FeedbackDropsOutOnGoodLink_CountsEpisodes()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t % 20 is > 10 and < 10.05 }.WholeRoutine(0);
        int expected = (int)((unit.Trace.All[^1].TimeS + 10) / 20);

        RunFeatures f = SyntheticRun.Extract(unit, links: SyntheticRun.Links(ownFailed: 1, feedbackFailed: 60)).Features;

        Assert.Equal(expected, f.Value("feedback.dropouts"));
        Assert.Contains(f.Moves, m => m.FailedBecause == "the feedback dropped out");
        Assert.Equal(0, f.Value("ring.dead_counts"));
    }

    private static RingMap Sightings(SyntheticUnit unit, List<Move> moves)
    {
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        moves.ForEach(m => extraction.AddMove(unit.Trace, m));
        return extraction.Complete(unit.Trace, SyntheticRun.Links(), SyntheticRun.Today).Ring;
    }
}
