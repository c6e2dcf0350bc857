using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;
using Bench.Tests.Running;

namespace Bench.Tests.Analysis.Judging;

public class RateShortfallTests
{
    private static readonly Profile Profile = Diverter.Profile with { Routine = VirtualRun.Diverter.Routine };
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;
    private static readonly RunFeatures HalfTested = Healthy with { Ring = Healthy.Ring with { Coverage = 0.5, RevolutionsToGo = 90 } };

    [Fact]
    public void Decide_RingUntestedAtALowRate_SaysWhichRateWasHeldAndWhatItMeans()
    {
        Judgement j = Judge.Decide(HalfTested with { PositionRateHz = 10 }, Profile, Symptom.Constant);
        Assert.Equal(RunOutcome.Held, j.Outcome);
        string missing = Assert.Single(j.Missing, m => m.StartsWith("A faster link", StringComparison.Ordinal));
        Assert.Contains("position was read 10 times a second", missing, StringComparison.Ordinal);
        Assert.Contains("with probability 0.04", missing, StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_RingUntestedAtAGoodRate_DoesNotBlameTheRate() =>
        Assert.DoesNotContain(
            Judge.Decide(HalfTested with { PositionRateHz = 136 }, Profile, Symptom.Constant).Missing,
            m => m.StartsWith("A faster link", StringComparison.Ordinal));

    [Fact]
    public void Decide_RecordWithoutTimes_SaysNothingOfRates()
    {
        Judgement j = Judge.Decide(HalfTested with { PositionRateHz = 10, Sampling = null }, Profile, Symptom.Constant);
        Assert.DoesNotContain(j.Missing.Concat(j.Reasons), m => m.Contains("times a second", StringComparison.Ordinal));
    }

    [Fact]
    public void Decide_CurrentReadTooSeldom_SaysWhatMayHaveBeenMissedAndJudgesAllTheSame()
    {
        SamplingTimes slow = Healthy.Sampling! with { Meters = Healthy.Sampling!.Meters with { MedianIntervalS = 0.1 } };
        Judgement j = Judge.Decide(Healthy with { Sampling = slow }, Profile, Symptom.Constant);
        Assert.Equal(Disposition.Reusable, j.Disposition);
        Assert.Contains(j.Reasons, r => r.StartsWith("Current was read 10 times a second", StringComparison.Ordinal) && r.Contains("than 100 ms", StringComparison.Ordinal));
    }
}
