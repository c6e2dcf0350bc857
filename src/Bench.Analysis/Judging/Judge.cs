using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>Findings in, one explained verdict out. Pure, and quick enough to repeat over an archive.</summary>
public static class Judge
{
    /// <summary>Probability from which a cause is taken as told from its rivals, so that no further check is asked for.</summary>
    public const double CauseIsClear = 0.9;

    /// <summary>Judges a completed run.</summary>
    /// <param name="features">What extraction made of it.</param>
    /// <param name="profile">The profile it is judged by.</param>
    /// <param name="symptom">What the field reported.</param>
    public static Judgement Decide(RunFeatures features, Profile profile, Symptom symptom)
    {
        ArgumentNullException.ThrowIfNull(features);
        ArgumentNullException.ThrowIfNull(profile);
        List<Finding> findings = Findings.Of(features, profile);
        List<Cause> causes = Causes.Of(findings, profile);
        Finding[] blocking = [.. findings.Where(f => Findings.BlocksJudging(f) && Findings.LiesOutside(f))];
        Finding[] scrap = [.. Failing(findings, Severity.Scrap)];
        Finding[] repair = [.. Failing(findings, Severity.Repair)];
        if (blocking.Length > 0)
        {
            string[] mend = [.. blocking.Select(f => $"Another run after this is mended: {f.Statement}")];
            return Held(findings, causes, [.. blocking.Select(f => f.Statement), .. Told(scrap, repair)], mend, "Mend the bench, then run this unit again.", profile);
        }

        return scrap.Length > 0 || repair.Length > 0
            ? Faulty(features, findings, causes, scrap, repair, profile, symptom)
            : Sound(features, findings, causes, profile, symptom);
    }

    private static IEnumerable<Finding> Failing(List<Finding> findings, Severity severity) =>
        findings.Where(f => f.Decision == FindingDecision.DoesNotConform && f.Limit.Severity == severity && !Findings.BlocksJudging(f));

    private static Judgement Faulty(
        RunFeatures features, List<Finding> findings, List<Cause> causes, Finding[] scrap, Finding[] repair, Profile profile, Symptom symptom)
    {
        (Cause? fault, FaultMode? mode) = Causes.Likeliest(causes, [.. scrap, .. repair], profile);
        WorkPlan work = WorkPlan.For(repair, fault, mode, profile);
        bool beyond = scrap.Length > 0 || work.TooDear;
        List<string> reasons = [.. Told(scrap, repair)];
        if (scrap.Length == 0 && work.TooDear)
        {
            reasons.Insert(0, FormattableString.Invariant(
                $"Repair would cost {work.Cost:0.00} {profile.Economics.Currency}, more than the {work.Most:0.00} {profile.Economics.Currency} a repair is worth."));
        }

        Judgement judgement = new()
        {
            Outcome = RunOutcome.Judged,
            Disposition = beyond ? Disposition.Scrap : Disposition.Repairable,
            Claim = ClaimOutcome.Undetermined,
            Findings = findings,
            Causes = causes,
            Checks = Checks(causes, profile),
            Reasons = reasons,
            Work = beyond ? [] : work.Items,
            WorkCost = beyond ? 0 : work.Cost,
            Missing = [],
            NextStep = Next(beyond, causes, fault, work, profile),
        };
        return Claims.Decide(judgement, mode, symptom, features.Demonstration.State, profile);
    }

    private static string Next(bool beyond, List<Cause> causes, Cause? fault, WorkPlan work, Profile profile)
    {
        if (fault is { Probability: < CauseIsClear } && NextChecks.Rank(causes, profile) is [var check, ..])
        {
            return $"First check: {CheckSentence.Of(check)}";
        }

        return beyond ? "Take the unit to recycling."
            : work.Items.Count > 0 ? work.Items[0].Work
            : "Take the unit to the repair bench; the profile names no remedy for this.";
    }

    private static Judgement Sound(RunFeatures features, List<Finding> findings, List<Cause> causes, Profile profile, Symptom symptom)
    {
        List<string> missing = MissingEvidence.Of(features, findings, profile);
        List<string> notes = [.. findings
            .Where(f => f.Decision == FindingDecision.DoesNotConform || (f.Decision == FindingDecision.Undecided && Findings.LiesOutside(f)))
            .Select(f => f.Statement)];
        if (RateShortfall.OfMeters(features) is string tooSlow)
        {
            notes.Add(tooSlow);
        }

        if (missing.Count > 0)
        {
            bool faultLeads = causes is [{ Id: not Causes.Healthy }, ..];
            string next = faultLeads && NextChecks.Rank(causes, profile) is [var check, ..]
                ? CheckSentence.Of(check)
                : $"Run the unit again; still missing: {Inline(missing[0])}";
            return Held(findings, causes, [.. notes, .. missing], missing, next, profile);
        }

        string claimed = symptom == Symptom.Constant ? "The reported fault was not there" : "The reported fault did not come";
        DemonstrationResult d = features.Demonstration;
        Judgement judgement = new()
        {
            Outcome = RunOutcome.Judged,
            Disposition = Disposition.Reusable,
            Claim = ClaimOutcome.Undetermined,
            Findings = findings,
            Causes = causes,
            Reasons =
            [
                .. notes,
                FormattableString.Invariant(
                    $"{claimed} in {d.Moves} moves, of which {d.Failed} failed: with 95 % confidence fewer than {100 * (d.UpperLimit95 ?? 1):0.#} % of moves fail."),
                FormattableString.Invariant(
                    $"{100 * features.Ring.Coverage:0.#} % of the {MissingEvidence.Tested(profile)} was passed often enough to find a dead sensor; at least {100 * profile.Demonstration.RingCoverage:0.#} % was asked for."),
                .. findings.Where(f => f.Decision == FindingDecision.NotAssessable && !UncoupledFeatures.All.Contains(f.Feature.Name) && !ProvokedFeatures.All.Contains(f.Feature.Name)).Select(f => f.Statement),
            ],
            Work = [],
            WorkCost = 0,
            Missing = [],
            NextStep = "Label the unit reusable and return it to stock.",
        };
        return Claims.Decide(judgement, null, symptom, d.State, profile);
    }

    private static Judgement Held(
        List<Finding> findings, List<Cause> causes, IReadOnlyList<string> reasons, IReadOnlyList<string> missing, string next, Profile profile) => new()
        {
            Outcome = RunOutcome.Held,
            Claim = ClaimOutcome.Undetermined,
            Findings = findings,
            Causes = causes,
            Checks = Checks(causes, profile),
            Reasons = reasons,
            Work = [],
            WorkCost = 0,
            Missing = missing,
            NextStep = next,
        };

    // Where one cause is clear, or the unit is most likely sound, a check would tell nothing worth its minutes.
    private static IReadOnlyList<HandCheck> Checks(List<Cause> causes, Profile profile) =>
        causes is not [{ Id: not Causes.Healthy, Probability: < CauseIsClear }, ..] ? [] : [.. NextChecks.Rank(causes, profile).Select(c =>
            new HandCheck(c.Mode.Id, c.Mode.NextCheck!, c.Mode.Expect, CheckSentence.Worth(c), c.Bits, c.Minutes))];

    private static IEnumerable<string> Told(Finding[] scrap, Finding[] repair) => scrap.Concat(repair).Select(f => f.Statement);

    private static string Inline(string sentence) =>
        sentence.Length > 1 && char.IsUpper(sentence[0]) && char.IsLower(sentence[1])
            ? char.ToLowerInvariant(sentence[0]) + sentence[1..]
            : sentence;
}
