using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Ripple;

/// <summary>A motor of 6 ripples a turn, 230 turns of it to one of the ring: at 263 counts/s its ripple has 454 Hz.</summary>
public class RippleFeaturesTests
{
    private const double Speed = 263;
    private const double RippleHz = 6 * 230 * Speed / 800;

    private static readonly Profile Profile = Diverter.Profile with
    {
        Electrical = Diverter.Profile.Electrical with { RippleCyclesPerMotorRevolution = 6 },
        Limits =
        [
            .. Diverter.Profile.Limits,
            .. new[] { "ripple.speed_ratio", "ripple.slip_counts" }.Select(n =>
                new Limit { Feature = n, Upper = 1000, Rule = DecisionRule.Guarded, Severity = Severity.Note }),
        ],
    };

    [Fact]
    public void Complete_CountFollowsTheMotor_RatioIsOneAndNothingSlips()
    {
        RunFeatures features = Run(Profile, 5000, (_, _) => 0);

        Feature ratio = features.Of("ripple.speed_ratio"), slip = features.Of("ripple.slip_counts");
        Assert.InRange(Math.Abs(ratio.Value!.Value - 1), 0, 3 * ratio.StandardUncertainty!.Value);
        Assert.InRange(ratio.StandardUncertainty.Value, 0, 0.001);
        Assert.InRange(slip.Value!.Value, 0, 4 * slip.StandardUncertainty!.Value);
    }

    // Half-way through the third move the count stays behind by 12.
    [Fact]
    public void Complete_CountLosesTwelveInOneMove_SlipSaysSo()
    {
        Feature slip = Run(Profile, 5000, (move, s) => move == 3 && s > 1.5 ? 12 : 0).Of("ripple.slip_counts");

        Assert.InRange(slip.Value!.Value - 12, -3 * slip.StandardUncertainty!.Value, 3 * slip.StandardUncertainty.Value);
    }

    // One count in ten is never counted.
    [Fact]
    public void Complete_CountLosesATenth_RatioSaysSo()
    {
        Feature ratio = Run(Profile, 5000, (_, s) => 0.1 * Speed * s).Of("ripple.speed_ratio");

        Assert.InRange(ratio.Value!.Value - (1 / 0.9), -3 * ratio.StandardUncertainty!.Value, 3 * ratio.StandardUncertainty.Value);
    }

    [Fact]
    public void Complete_MeterTooSlow_SaysTheRateNeeded() =>
        Assert.Equal(
            "current was sampled 500 times a second; ripple of 454 Hz needs 1134",
            Run(Profile, 500, (_, _) => 0).Of("ripple.speed_ratio").NotAssessableBecause);

    [Fact]
    public void Complete_ProfileGivesNoRipple_SaysSo() =>
        Assert.Contains(
            "ripple_cycles_per_motor_revolution",
            Run(Profile with { Electrical = Diverter.Profile.Electrical }, 5000, (_, _) => 0).Of("ripple.speed_ratio").NotAssessableBecause,
            StringComparison.Ordinal);

    [Fact]
    public void Complete_NoRippleInTheCurrent_FollowsNone() =>
        Assert.Contains("stood out", Run(Profile, 5000, (_, _) => 0, amplitude: 0).Of("ripple.slip_counts").NotAssessableBecause, StringComparison.Ordinal);

    // Four moves of 3 s, count read 250 times a second less what is lost.
    private static RunFeatures Run(Profile profile, double rateHz, Func<int, double, double> lost, double amplitude = 0.01)
    {
        Random random = new(5);
        Trace trace = new();
        RunExtraction extraction = new(profile, Diverter.Bench);
        int every = (int)Math.Max(1, rateHz / 250);
        for (int move = 1; move <= 4; move++)
        {
            int first = trace.Count;
            double on = (move * 10.0) + 0.2, off = on + 3, begin = random.NextDouble();
            for (int i = 0; i < 3.8 * rateHz; i++)
            {
                double t = (move * 10.0) + (i / rateHz), s = Math.Clamp(t - on, 0, 3);
                bool driven = t >= on && t < off;
                double current = driven ? 0.22 + (amplitude * Math.Sin(2 * Math.PI * RippleHz * s)) + (0.006 * (random.NextDouble() - 0.5)) : 0;
                int count = profile.Ring.Place((long)Math.Floor(begin + (Speed * s) - lost(move, s)));
                DriveState drive = driven ? DriveState.Up : DriveState.Off;
                trace.Add(i % every == 0
                    ? new Sample(t, drive, FeedbackStatus.Ok, count, current, 24, IndexState.NotSampled)
                    : new Sample(t, drive, FeedbackStatus.NotSampled, -1, current, 24, IndexState.NotSampled));
            }

            extraction.AddMove(trace, new Move
            {
                Number = move,
                Stage = StageKind.Endurance,
                ToPort = "A",
                Direction = DriveDirection.Up,
                TargetCount = 789,
                TravelCounts = 789,
                DriveOnS = on,
                DriveOffS = off,
                SettledS = off + 0.5,
                End = MoveEnd.Landed,
                ExpectedCoastCounts = 0,
                FirstSample = first,
                SampleCount = trace.Count - first,
            });
        }

        return extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
    }
}
