using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Judging;

public class ClaimsTests
{
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

    private static readonly RunFeatures DeadSensors = Healthy with
    {
        Features = [.. Healthy.Features.Where(f => f.Name != "ring.dead_counts"), Feature.Of("ring.dead_counts", 2, 0, 100)],
    };

    [Theory]
    [InlineData(Symptom.Constant)]
    [InlineData(Symptom.Intermittent)]
    public void Decide_NoRowInTheProfile_FollowsTheUsualTable(Symptom symptom)
    {
        Assert.Equal(ClaimOutcome.Confirmed, Judge.Decide(DeadSensors, Diverter.Profile, symptom).Claim);
        Assert.Equal(ClaimOutcome.NotReproduced, Judge.Decide(Healthy, Diverter.Profile, symptom).Claim);
    }

    [Fact]
    public void Decide_RowFits_DecidesTheClaimAndNothingElse()
    {
        Profile profile = With(new ClaimRule { Cause = "dead-sensors", Symptom = Symptom.Intermittent, Outcome = ClaimOutcome.Undetermined });

        Judgement usual = Judge.Decide(DeadSensors, Diverter.Profile, Symptom.Intermittent);
        Judgement told = Judge.Decide(DeadSensors, profile, Symptom.Intermittent);

        Assert.Equal((ClaimOutcome.Undetermined, 1), (told.Claim, told.ClaimRow));
        Assert.Null(usual.ClaimRow);
        Assert.Equal((usual.Disposition, usual.WorkCost, usual.NextStep), (told.Disposition, told.WorkCost, told.NextStep));
        Assert.Equal(ClaimOutcome.Confirmed, Judge.Decide(DeadSensors, profile, Symptom.Constant).Claim);
        Assert.Equal(ClaimOutcome.NotReproduced, Judge.Decide(Healthy, profile, Symptom.Intermittent).Claim);
    }

    [Fact]
    public void Decide_TwoRowsFit_TheFirstDecides()
    {
        Profile profile = With(
            new ClaimRule { Disposition = Disposition.Reusable, Symptom = Symptom.Intermittent, Outcome = ClaimOutcome.Undetermined },
            new ClaimRule { Disposition = Disposition.Reusable, Outcome = ClaimOutcome.NotReproduced });

        Assert.Equal(ClaimOutcome.Undetermined, Judge.Decide(Healthy, profile, Symptom.Intermittent).Claim);
        Assert.Equal(ClaimOutcome.NotReproduced, Judge.Decide(Healthy, profile, Symptom.Constant).Claim);
    }

    [Fact]
    public void Decide_HeldUnit_IsUndeterminedWhateverTheProfileSays()
    {
        RunFeatures lowSupply = Healthy with
        {
            Features = [.. Healthy.Features.Where(f => f.Name != "bench.supply_open_v"), Feature.Of("bench.supply_open_v", 12, 0, 9)],
        };

        Assert.Equal(ClaimOutcome.Undetermined, Judge.Decide(lowSupply, With(new ClaimRule { Symptom = Symptom.Constant, Outcome = ClaimOutcome.NotReproduced }), Symptom.Constant).Claim);
    }

    private static Profile With(params ClaimRule[] claims) => Diverter.Profile with { Claims = claims };
}
