using Bench.Analysis.Judging;
using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Uncertainty;

public class GaugeStudiesTests
{
    private const string Running = "current.running_a";

    [Fact]
    public void Complete_GaugedFeature_HasTheStudyInItsBudgetAndUncertainty()
    {
        Feature without = Extract(Diverter.Bench).Of(Running);
        Feature with = Extract(Bench(0.1)).Of(Running);
        Contribution study = with.Budget![0];
        Assert.Equal(("gauge study GS-4", EvaluationType.B, 0.1), (study.Source, study.Type, study.StandardUncertainty));
        Assert.Equal(Math.Sqrt(Math.Pow(without.StandardUncertainty!.Value, 2) + 0.01), with.StandardUncertainty!.Value, 1e-12);
        Assert.Equal(without.Value, with.Value);
    }

    [Fact]
    public void Decide_GaugedValueNearItsLimit_IsNoLongerCondemned()
    {
        double value = Extract(Diverter.Bench).Value(Running);
        Profile profile = Diverter.Profile with
        {
            Limits = [.. Diverter.Profile.Limits.Where(l => l.Feature != Running), new Limit { Feature = Running, Upper = value - 0.05, Rule = DecisionRule.Guarded, Severity = Severity.Scrap }],
        };
        Assert.Equal(FindingDecision.DoesNotConform, Judged(Diverter.Bench, profile).Findings.Single(f => f.Feature.Name == Running).Decision);
        Assert.Equal(FindingDecision.Undecided, Judged(Bench(0.1), profile).Findings.Single(f => f.Feature.Name == Running).Decision);
    }

    [Fact]
    public void Decide_OverdueStudy_HoldsTheUnit()
    {
        BenchSnapshot overdue = Bench(0.001, due: SyntheticRun.Today.AddDays(-3));
        Judgement judgement = Judged(overdue, Diverter.Profile);
        Assert.Equal(RunOutcome.Held, judgement.Outcome);
        Assert.Contains("gauge study, is overdue by 3 days", judgement.Reasons[0], StringComparison.Ordinal);
    }

    private static RunFeatures Extract(BenchSnapshot bench) => SyntheticRun.Extract(Unit(), bench: bench).Features;

    private static Judgement Judged(BenchSnapshot bench, Profile profile) =>
        Judge.Decide(SyntheticRun.Extract(Unit(), profile, bench: bench).Features, profile, Symptom.Intermittent);

    private static SyntheticUnit Unit() => new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(4);

    private static BenchSnapshot Bench(double u, DateOnly? due = null) => Diverter.Bench with
    {
        Gauges =
        [
            new GaugeDescription
            {
                Feature = Running, StandardUncertainty = u, FoundOn = new DateOnly(2025, 3, 10), DueOn = due ?? new DateOnly(2027, 3, 10), Study = "GS-4",
            },
        ],
    };
}
