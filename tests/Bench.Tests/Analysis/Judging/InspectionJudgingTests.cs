using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Judging;

public class InspectionJudgingTests
{
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

    private static readonly Profile Profile = Diverter.Profile with
    {
        Inspection =
        [
            Item("drive-side", Severity.Scrap, null, "fluid had come past the seal") with { ForbidsEnergising = ["bad"] },
            Item("connector", Severity.Repair, "mend-connector", "pins were bent"),
            Item("label", Severity.Note, null, "the label was not readable"),
        ],
    };

    [Fact]
    public void Decide_FluidInTheDriveSide_CondemnsAUnitWhoseMotorRunsWell()
    {
        Judgement j = Judge.Decide(Healthy, Profile, Seen("drive-side", "bad"));

        Assert.Equal((RunOutcome.Judged, Disposition.Scrap), (j.Outcome, j.Disposition));
        Assert.Equal("On arrival fluid had come past the seal (drive-side: bad; on a sound unit good).", j.Reasons[0]);
        Assert.Equal("inspection.drive-side", j.Findings[0].Feature.Name);
        Assert.Equal("Take the unit to recycling.", j.NextStep);
    }

    // An inspection needs no bench: one that can't be believed holds every other unit, not this.
    [Fact]
    public void Decide_FluidAndABadBench_CondemnsAllTheSame()
    {
        RunFeatures lowSupply = Healthy with { Features = [.. Healthy.Features.Where(f => f.Name != "bench.supply_open_v"), Feature.Of("bench.supply_open_v", 12, 0, 9)] };

        Assert.Equal(RunOutcome.Held, Judge.Decide(lowSupply, Profile, Seen("drive-side", "good")).Outcome);
        Assert.Equal(Disposition.Scrap, Judge.Decide(lowSupply, Profile, Seen("drive-side", "bad")).Disposition);
    }

    [Fact]
    public void Decide_BentConnector_IsWorkOnAUnitThatIsElseSound()
    {
        Judgement j = Judge.Decide(Healthy, Profile, Seen("connector", "bad"));

        Assert.Equal(Disposition.Repairable, j.Disposition);
        Assert.Equal(["mend-connector"], j.Work.Select(w => w.Remedy));
    }

    [Fact]
    public void Decide_AllConformsOrOnlyANote_LeavesTheUnitReusable()
    {
        Assert.Equal(Disposition.Reusable, Judge.Decide(Healthy, Profile, Seen("drive-side", "good")).Disposition);

        Judgement noted = Judge.Decide(Healthy, Profile, Seen("label", "bad"));
        Assert.Equal(Disposition.Reusable, noted.Disposition);
        Assert.Contains(noted.Reasons, r => r.Contains("label was not readable", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(null)]
    [InlineData(InspectionAnswer.NotLooked)]
    [InlineData("an answer of another profile")]
    public void Decide_RequiredItemWithoutAnAnswer_HoldsASoundUnit(string? answer)
    {
        UnitReturn unit = answer is null ? Seen("label", "good") : Seen("drive-side", answer);
        Profile required = Profile with { Inspection = [.. Profile.Inspection.Select(i => i with { Required = i.Id == "drive-side" })] };

        Judgement j = Judge.Decide(Healthy, required, unit);
        Assert.Equal(RunOutcome.Held, j.Outcome);
        Assert.Contains(j.Missing, m => m.Contains("Arrival inspection: drive side", StringComparison.Ordinal));
        Assert.Equal(Disposition.Reusable, Judge.Decide(Healthy, Profile, unit).Disposition);
    }

    // Whoever enters nothing about the arrival gets the verdict of before there were inspections.
    [Fact]
    public void Decide_NobodyInspected_GivesNoFindingOfIt()
    {
        Judgement with = Judge.Decide(Healthy, Profile, Symptom.Intermittent);
        Judgement without = Judge.Decide(Healthy, Diverter.Profile, Symptom.Intermittent);

        Assert.Equal(without.Findings.Select(f => f.Statement), with.Findings.Select(f => f.Statement));
        Assert.Equal(without.Causes.Select(c => c.Probability), with.Causes.Select(c => c.Probability));
    }

    [Fact]
    public void Decide_FaultThatShowsInTheInspection_GrowsLikelier()
    {
        Profile told = Profile with
        {
            FaultModes = [.. Profile.FaultModes.Select(m => m.Id == "seized-valve"
                ? m with { Shows = new Dictionary<string, double>(m.Shows) { ["inspection.drive-side"] = 0.5 } } : m)],
        };
        RunFeatures locked = Healthy with { Features = [.. Healthy.Features.Where(f => f.Name != "motion.locked_moves"), Feature.Of("motion.locked_moves", 4, 0, 4)] };

        double before = Probability(Judge.Decide(locked, told, Symptom.Constant));
        Assert.True(Probability(Judge.Decide(locked, told, Seen("drive-side", "bad"))) > before);
        Assert.True(Probability(Judge.Decide(locked, told, Seen("drive-side", "good"))) < before);

        static double Probability(Judgement j) => j.Causes.First(c => c.Id == "seized-valve").Probability;
    }

    [Fact]
    public void DecideUntested_CondemnedAndNot_IsScrapOrHeldForARun()
    {
        Assert.Equal(Disposition.Scrap, Judge.DecideUntested(Profile, Seen("drive-side", "bad")).Disposition);

        Judgement held = Judge.DecideUntested(Profile, Seen("connector", "bad"));
        Assert.Equal((RunOutcome.Held, null), (held.Outcome, held.Disposition));
        Assert.Contains("pins were bent", held.Reasons[0], StringComparison.Ordinal);
        Assert.StartsWith("A run on the bench", Assert.Single(held.Missing), StringComparison.Ordinal);
    }

    // Nobody read the feedback: whatever the likeliest cause explains, the claimed fault was not found.
    [Fact]
    public void DecideUntested_Condemned_LeavesTheClaimToATableOfTheProfile()
    {
        Profile wet = Profile with
        {
            FaultModes = [.. Profile.FaultModes.Select(m => m with
            {
                ExplainsFeedbackFault = true,
                Shows = new Dictionary<string, double>(m.Shows) { ["inspection.drive-side"] = 0.9 },
            })],
        };
        ClaimRule row = new() { Disposition = Disposition.Scrap, Outcome = ClaimOutcome.OtherFault };

        Assert.Equal(ClaimOutcome.Undetermined, Judge.DecideUntested(wet, Seen("drive-side", "bad")).Claim);
        Assert.Equal(ClaimOutcome.OtherFault, Judge.DecideUntested(wet with { Claims = [row] }, Seen("drive-side", "bad")).Claim);
    }

    private static InspectionItem Item(string id, Severity severity, string? remedy, string means) => new()
    {
        Id = id,
        Question = $"Is the {id} good?",
        Answers = ["good", "bad"],
        Conforms = ["good"],
        Means = means,
        Severity = severity,
        Remedy = remedy,
    };

    private static UnitReturn Seen(string item, string answer) =>
        new() { Serial = "GH-1", Symptom = Symptom.Intermittent, Inspection = [new InspectionAnswer(item, answer)] };
}
