using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Judging;

// A resistance too high by worn brushes (motor, 160 + 60 credits) or by contacts (5 + 15): half of 400 is the greatest repair.
public class RepairWorthTests
{
    private static readonly RunFeatures Healthy = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;

    // Shares of what explains the finding: 0.7 against 0.3, both priors alike.
    [Fact]
    public void Decide_CheapAndDearCausesInDoubt_IsHeldForTheCheckThatTells()
    {
        Judgement j = Decide(brushes: 0.7, contacts: 0.3, check: "Turn the shaft and measure across the terminals.");

        Assert.Equal((RunOutcome.Held, null), (j.Outcome, j.Disposition));
        Assert.Contains("Brushes worn, 70 %: 220.00 credits; Contacts resist, 30 %: 20.00 credits; at most 200.00 credits is", Assert.Single(j.Missing), StringComparison.Ordinal);
        Assert.StartsWith("Turn the shaft and measure", j.NextStep, StringComparison.Ordinal);
        Assert.Contains("resistance of 30.0 Ω", j.Reasons[0], StringComparison.Ordinal);
    }

    // Expected cost 0.7·220 + 0.3·20 = 160 is worth it, 0.79·220 + 0.21·20 = 178 too.
    [Theory]
    [InlineData(0.7, 0.3)]
    [InlineData(0.79, 0.21)]
    public void Decide_CheapAndDearCausesAndNoCheck_DecidesByExpectedCost(double brushes, double contacts)
    {
        Judgement j = Decide(brushes, contacts, check: null);

        Assert.Equal(Disposition.Repairable, j.Disposition);
        Assert.Equal(["mend-connector"], j.Work.Select(w => w.Remedy));
    }

    [Theory]
    [InlineData(0.9, 0.1, Disposition.Scrap)]
    [InlineData(0.1, 0.9, Disposition.Repairable)]
    public void Decide_OneSideIsClear_IsPlannedFor(double brushes, double contacts, Disposition expected) =>
        Assert.Equal(expected, Decide(brushes, contacts, check: "Measure.").Disposition);

    [Fact]
    public void Decide_ClearCause_NamesItWhereThePartsToLookAtStood()
    {
        Judgement j = Decide(brushes: 0.95, contacts: 0.001, check: null);

        Assert.True(j.Causes[0].Probability >= Judge.CauseIsClear);
        Assert.EndsWith("Likeliest cause: brushes worn.", j.Reasons[0], StringComparison.Ordinal);
    }

    // Of two findings alike the one the cause shows in goes first, though the profile names it last.
    [Fact]
    public void Decide_SeveralFindings_TheCausesOwnLeads()
    {
        Judgement j = Judge.Decide(
            With(Feature.Of("count.jump_counts", 20, 0.5, 60), Feature.Of("ring.weak_counts", 60, 0, 60)), Diverter.Profile, Symptom.Intermittent);

        Assert.Equal("ring.weak_counts", j.Findings[0].Feature.Name);
        Assert.StartsWith("60 sensors are seen too seldom", j.Reasons[0], StringComparison.Ordinal);
    }

    private static Judgement Decide(double brushes, double contacts, string? check)
    {
        Profile profile = Diverter.Profile with
        {
            FaultModes =
            [
                .. Diverter.Profile.FaultModes.Where(m => m.Id is "none" or "dead-sensors"),
                Mode("worn-brushes", "Brushes worn", brushes, "change-motor", check),
                Mode("contact-resistance", "Contacts resist", contacts, "mend-connector", null),
            ],
        };
        return Judge.Decide(With(Feature.Of("winding.resistance_ohm", 30, 1, 9)), profile, Symptom.Constant);
    }

    private static FaultMode Mode(string id, string name, double show, string remedy, string? check) => new()
    {
        Id = id,
        Name = name,
        Prior = 0.2,
        Shows = new Dictionary<string, double> { ["winding.resistance_ohm"] = Math.Max(show, 0.003) },
        Remedy = remedy,
        NextCheck = check,
        Minutes = check is null ? null : 5,
        ExplainsFeedbackFault = false,
    };

    private static RunFeatures With(params Feature[] replaced) => Healthy with
    {
        Features = [.. Healthy.Features.Where(f => replaced.All(r => r.Name != f.Name)), .. replaced],
    };
}
