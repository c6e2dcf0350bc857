using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;
using Bench.Tests.Simulation;

namespace Bench.Tests.Analysis.Judging;

public class JudgeTests
{
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

    [Fact]
    public void Decide_HealthyUnitFullyDemonstrated_IsReusable()
    {
        Judgement j = Decide(Healthy);

        Assert.Equal((RunOutcome.Judged, Disposition.Reusable, ClaimOutcome.NotReproduced), (j.Outcome, j.Disposition, j.Claim));
        Assert.Empty(j.Missing);
        Assert.Empty(j.Work);
        Assert.Equal("none", j.Causes[0].Id);
        Assert.Equal(1, j.Causes.Sum(c => c.Probability), 1e-12);
        Assert.Contains("with 95 % confidence fewer than 3.8 % of moves fail", j.Reasons[0], StringComparison.Ordinal);
    }

    // Only a locked unit is uncoupled: for any other nothing is missing.
    [Fact]
    public void Decide_HealthyUnit_DoesNotExcuseTheMoveWithTheValveOff()
    {
        Limit valveOff = new() { Feature = UncoupledFeatures.Locked, Upper = 0, Rule = DecisionRule.Simple, Severity = Severity.Scrap };
        Judgement j = Judge.Decide(Healthy, Diverter.Profile with { Limits = [.. Diverter.Profile.Limits, valveOff] }, Symptom.Intermittent);

        Assert.Equal(Disposition.Reusable, j.Disposition);
        Assert.DoesNotContain(j.Reasons, r => r.Contains("valve off", StringComparison.Ordinal));
        Assert.Equal(UncoupledFeatures.Locked, j.Findings[^1].Feature.Name);
    }

    // What the fault explains is mended by its own remedy, what it does not by that of the finding.
    [Fact]
    public void Decide_FaultIsClearAndHasItsOwnRemedy_PlansThatOnly()
    {
        Profile profile = Diverter.Profile with
        {
            FaultModes = [.. Diverter.Profile.FaultModes.Select(m => m.Id == "coupling-slip" ? m with { Remedy = "change-gears" } : m)],
        };
        Judgement j = Judge.Decide(
            With(Feature.Of("index.shift_counts", 30, 1, 40), Feature.Of("index.step_counts", 30, 1, 40), Feature.Of("current.interruptions", 3, 0, 40)),
            profile, Symptom.Constant);

        Assert.Equal("coupling-slip", j.Causes[0].Id);
        Assert.Equal(["mend-connector", "change-gears"], j.Work.Select(w => w.Remedy));
    }

    [Fact]
    public void Decide_DeadSensors_IsRepairableAndConfirmsTheClaim()
    {
        Judgement j = Decide(With(Feature.Of("ring.dead_counts", 2, 0, 100)));

        Assert.Equal((RunOutcome.Judged, Disposition.Repairable, ClaimOutcome.Confirmed), (j.Outcome, j.Disposition, j.Claim));
        Assert.StartsWith("Repair would cost ", j.Reasons[1], StringComparison.Ordinal);
        Assert.Contains(" min; it is worth up to 200.00 credits.", j.Reasons[1], StringComparison.Ordinal);
        Assert.Equal("dead-sensors", j.Causes[0].Id);
        Assert.Equal(["change-sensors"], j.Work.Select(w => w.Remedy));
        Assert.Equal(60 + 40, j.WorkCost, 1e-9);
        Assert.Equal("2 sensors were passed often enough and never seen; none is allowed. Likeliest cause: dead sensors, at the counts in the packet's plot.", j.Reasons[0]);
        Assert.Equal(FindingDecision.DoesNotConform, j.Findings[0].Decision);
    }

    [Fact]
    public void Decide_SlippingCoupling_IsAnotherFaultThanClaimed()
    {
        Judgement j = Decide(With(Feature.Of("index.shift_counts", 12, 0.5, 60), Feature.Of("index.step_counts", 13, 1, 60)));

        Assert.Equal(ClaimOutcome.OtherFault, j.Claim);
        Assert.Equal("coupling-slip", j.Causes[0].Id);
        Assert.Single(j.Work);
        Assert.Equal("Change the coupling.", j.NextStep);
    }

    // Steps are taken out of the drift before it is fitted, so a coupling that slips shows no drift as a rule.
    [Fact]
    public void Decide_StepsAtTheShaftWithoutDrift_NamesTheCouplingBeforePlay()
    {
        RunFeatures slipping = With(
            Feature.Of("index.step_counts", 255.7, 1.1, 60),
            Feature.Of("index.drift_counts_per_100_moves", 0.4, 0.5, 60),
            Feature.Of("index.reversal_counts", 1.0, 0.5, 60));
        Assert.Equal("coupling-slip", Judge.Decide(slipping, Families.Diverter, Symptom.Intermittent).Causes[0].Id);
        RunFeatures both = With(
            Feature.Of("index.step_counts", 39.4, 1.1, 60),
            Feature.Of("index.drift_counts_per_100_moves", 0.4, 0.5, 60),
            Feature.Of("index.reversal_counts", 20.8, 0.5, 60));
        Assert.Equal("coupling-slip", Judge.Decide(both, Families.Diverter, Symptom.Intermittent).Causes[0].Id);
        RunFeatures drifting = With(
            Feature.Of("index.step_counts", 1.0, 0.5, 60),
            Feature.Of("index.drift_counts_per_100_moves", 28.9, 1.8, 60),
            Feature.Of("index.reversal_counts", 1.0, 0.5, 60));
        Assert.Equal("drifting-zero", Judge.Decide(drifting, Families.Diverter, Symptom.Intermittent).Causes[0].Id);
    }

    // A fault that no mode of the profile names must not confirm a claim by whichever mode happens to be likeliest.
    [Fact]
    public void Decide_FaultNoModeNames_DoesNotConfirmTheClaim() =>
        Assert.Equal(ClaimOutcome.OtherFault, Decide(With(Feature.Of("current.tight_spot_ratio", 1.8, 0.01, 60))).Claim);

    [Theory]
    [InlineData("bench.supply_open_v", 19.0)]
    [InlineData("bench.link_error_share", 0.05)]
    [InlineData("bench.calibration_overdue_days", 1)]
    public void Decide_BenchNotInOrder_HoldsWhateverTheUnitShows(string feature, double value)
    {
        Judgement j = Decide(With(Feature.Of(feature, value, 0, 10), Feature.Of("motion.locked_moves", 4, 0, 4)));

        Assert.Equal(RunOutcome.Held, j.Outcome);
        Assert.Null(j.Disposition);
        Assert.Equal(ClaimOutcome.Undetermined, j.Claim);
        Assert.NotEmpty(j.Missing);
        Assert.StartsWith("Mend the bench", j.NextStep, StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_BenchFindingWrittenAsScrap_StillOnlyHolds()
    {
        Profile strict = Diverter.Profile with
        {
            Limits = [new Limit { Feature = "bench.supply_open_v", Lower = 20.4, Rule = DecisionRule.Simple, Severity = Severity.Scrap }],
        };

        Assert.Equal(RunOutcome.Held, Judge.Decide(With(Feature.Of("bench.supply_open_v", 12, 0, 9)), strict, Symptom.Constant).Outcome);
    }

    [Fact]
    public void Decide_ScrapFinding_IsScrapAndAsksForTheCheckThatTellsTheCauses()
    {
        Judgement j = Decide(With(Feature.Of("motion.locked_moves", 4, 0, 4)));

        Assert.Equal(Disposition.Scrap, j.Disposition);
        Assert.Equal(0.494, j.Causes[0].Probability, 0.002);
        Assert.Equal(j.Causes[0].Probability, j.Causes[1].Probability, 1e-12);
        Assert.StartsWith("First check: Take the motor off and turn the valve by hand.", j.NextStep, StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_RepairDearerThanItIsWorth_IsScrapForThatReason()
    {
        // Gears 90 + 60 and motor 160 + 60 credits: 370 against half of 400.
        Judgement j = Decide(With(Feature.Of("current.running_a", 0.5, 0.01, 9), Feature.Of("winding.resistance_ohm", 30, 1, 9)));

        Assert.Equal(Disposition.Scrap, j.Disposition);
        Assert.Equal("Repair would cost 370.00 credits, more than the 200.00 credits a repair is worth.", j.Reasons[1]);
        Assert.Empty(j.Work);
    }

    [Fact]
    public void Decide_SameRemedyForSeveralFindings_IsDoneOnceAndInOrder()
    {
        Judgement j = Decide(With(
            Feature.Of("ring.dead_counts", 2, 0, 100), Feature.Of("feedback.off_ring", 3, 0, 100), Feature.Of("ring.weak_counts", 9, 0, 100)));

        Assert.Equal(["clean-sensors", "change-sensors"], j.Work.Select(w => w.Remedy));
    }

    [Fact]
    public void Decide_CoverageNotReached_IsHeldWithRevolutionsMissing()
    {
        Judgement j = Decide(Healthy with { Ring = Healthy.Ring with { Coverage = 0.6, RevolutionsToGo = 7 } });

        Assert.Equal(RunOutcome.Held, j.Outcome);
        Assert.Contains("7 further revolutions", Assert.Single(j.Missing), StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_DemonstrationNotReached_IsHeldWithMovesMissing()
    {
        DemonstrationResult open = Healthy.Demonstration with { State = SequentialState.Continue, Moves = 10, Path = [-0.784] };

        Judgement j = Decide(Healthy with { Demonstration = open });

        // (-2.944 + 0.784)/-0.0784 = 27.6
        Assert.StartsWith("28 further moves without a failure", Assert.Single(j.Missing), StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_MovesFailedAndNoLimitNamesWhy_IsHeld()
    {
        DemonstrationResult refuted = Healthy.Demonstration with { State = SequentialState.Refuted, Failed = 2, Moves = 20 };

        Judgement j = Decide(Healthy with { Demonstration = refuted });

        Assert.Equal(RunOutcome.Held, j.Outcome);
        Assert.Contains("2 of 20 moves failed", j.Missing[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_ValueOutsideByLessThanItsUncertainty_IsHeldNotCondemned()
    {
        Judgement j = Decide(With(Feature.Of("winding.resistance_ohm", 17.5, 1, 9)));

        Assert.Equal(RunOutcome.Held, j.Outcome);
        Assert.Equal(FindingDecision.Undecided, j.Findings[0].Decision);
    }

    // docs/methods/judging.md: an undecided value inside its limit does not keep a unit, and it is told.
    [Fact]
    public void Decide_ValueInsideByLessThanItsUncertainty_IsReusableAndSaysWhyItDoesNotHold()
    {
        Judgement j = Decide(With(Feature.Of("winding.resistance_ohm", 10.9, 1, 9)));

        Finding finding = j.Findings.First(f => f.Decision == FindingDecision.Undecided);
        Assert.Equal(Disposition.Reusable, j.Disposition);
        Assert.Equal(
            "Resistance seen from the bench: 10.9 Ω, give or take 2.0; within the limits 9 to 17 Ω, but by less than that. This alone does not hold a unit: only a value likelier outside than within could.",
            finding.Statement);
        Assert.DoesNotContain(finding.Statement, j.Reasons);
    }

    [Fact]
    public void Decide_ReusableUnitWithANote_SaysFirstWhatFreesIt()
    {
        Profile noted = Diverter.Profile with { Limits = [.. Diverter.Profile.Limits.Select(l => l.Feature == "winding.resistance_ohm" ? l with { Severity = Severity.Note } : l)] };
        Judgement j = Judge.Decide(With(Feature.Of("winding.resistance_ohm", 26, 1, 9)), noted, Symptom.Intermittent);

        Assert.Equal(Disposition.Reusable, j.Disposition);
        Assert.StartsWith("The reported fault did not come", j.Reasons[0], StringComparison.Ordinal);
        Assert.Contains("resistance of 26.0", j.Reasons[2], StringComparison.Ordinal);
    }

    [Fact]
    public void Decide_FeedbackNotAssessable_IsHeld() =>
        Assert.Equal(RunOutcome.Held, Decide(With(Feature.Missing("feedback.dropouts", "the link may be why"))).Outcome);

    // C13 by hand: priors 0.5 none, 0.1 dead, ...; dead counts shown: 0.5·0.002 against 0.1·0.95, 0.1·0.1, 3 modes at 0.002
    // (0.1, 0.1, 0.05, 0.05). All other findings conform: (1 - 0.002) for modes that do not name them.
    [Fact]
    public void Causes_DeadSensorsShown_AgreeWithBayesByHand()
    {
        Dictionary<string, double> p = Decide(With(Feature.Of("ring.dead_counts", 2, 0, 100))).Causes.ToDictionary(c => c.Id, c => c.Probability);

        double dead = 0.1 * 0.95 * 0.998;
        double dirty = 0.1 * 0.1 * 0.05;
        double none = 0.5 * 0.002 * 0.998;
        Assert.Equal(dead / none, p["dead-sensors"] / p["none"], 1e-9);
        Assert.Equal(dirty / none, p["contaminated-sensors"] / p["none"], 1e-9);
    }

    // By hand, same numbers: dead counts shown have 0.95 under dead sensors; among the rest, priors 0.9 in all, one mode of
    // prior 0.1 names them with 0.1 and the others (0.8) not: (0.1·0.1 + 0.8·0.002)/0.9 = 0.0129.
    [Fact]
    public void Causes_DeadSensorsShown_SayHowMuchTheFindingSpeaksForIt()
    {
        Cause dead = Decide(With(Feature.Of("ring.dead_counts", 2, 0, 100))).Causes.First(c => c.Id == "dead-sensors");

        CauseEvidence strongest = dead.Evidence[0];
        Assert.Equal("ring.dead_counts", strongest.Feature);
        Assert.Equal(0.95 * 0.9 / 0.0116, strongest.Factor, 1e-9);
    }

    [Fact]
    public void Causes_LockedUnit_FindingsSpeakAgainstSoundness()
    {
        Cause none = Decide(With(Feature.Of("ring.dead_counts", 2, 0, 100))).Causes.First(c => c.Id == "none");

        CauseEvidence against = Assert.Single(none.Evidence, e => e.Feature == "ring.dead_counts");
        Assert.InRange(against.Factor, 0.005, 0.1);
    }

    [Fact]
    public void Checks_CausesInDoubt_AreThoseRankedAndTheFirstIsTheNextStep()
    {
        Judgement j = Decide(With(Feature.Of("motion.locked_moves", 4, 0, 4)));

        Assert.Contains(j.Checks[0].Check, j.NextStep, StringComparison.Ordinal);
        Assert.InRange(j.Checks[0].Bits, 0.5, 2);
        Assert.Empty(Decide(Healthy).Checks);
    }

    private static Judgement Decide(RunFeatures features) => Judge.Decide(features, Diverter.Profile, Symptom.Intermittent);

    private static RunFeatures With(params Feature[] replaced) => Healthy with
    {
        Features = [.. Healthy.Features.Where(f => replaced.All(r => r.Name != f.Name)), .. replaced],
    };
}
