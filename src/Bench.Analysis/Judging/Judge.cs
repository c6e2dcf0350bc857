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

    private const string Recycle = "Take the unit to recycling.";

    /// <summary>Judges a completed run of a unit that nobody inspected.</summary>
    /// <param name="features">What extraction made of it.</param>
    /// <param name="profile">The profile it is judged by.</param>
    /// <param name="symptom">What the field reported.</param>
    public static Judgement Decide(RunFeatures features, Profile profile, Symptom symptom) =>
        Decide(features, profile, new UnitReturn { Serial = "", Symptom = symptom });

    /// <summary>Judges a completed run.</summary>
    /// <param name="features">What extraction made of it.</param>
    /// <param name="profile">The profile it is judged by.</param>
    /// <param name="unit">The return, with its arrival inspection.</param>
    public static Judgement Decide(RunFeatures features, Profile profile, UnitReturn unit)
    {
        ArgumentNullException.ThrowIfNull(features);
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(unit);
        List<Finding> findings = Findings.Of(features, profile, unit);
        List<Cause> causes = Causes.Of(findings, profile);
        if (Causes.Naming(causes, [.. Failing(findings, Severity.Scrap), .. Failing(findings, Severity.Repair)], profile) is [var leading, ..])
        {
            findings = Findings.LedBy(findings, leading.Mode, isClear: leading.Cause.Probability >= CauseIsClear);
        }

        Finding[] blocking = [.. findings.Where(f => Findings.BlocksJudging(f) && Findings.LiesOutside(f))];
        Finding[] scrap = [.. Failing(findings, Severity.Scrap)];
        Finding[] repair = [.. Failing(findings, Severity.Repair)];
        if (blocking.Length > 0)
        {
            // What a person saw on arrival needs no bench, and a bench that can't be believed does not excuse it.
            Finding[] seen = [.. scrap.Where(InspectionFindings.Is)];
            if (seen.Length > 0)
            {
                return Faulty(features.Demonstration.State, findings, causes, seen, [], profile, unit.Symptom);
            }

            string[] mend = [.. blocking.Select(f => $"Another run after this is mended: {f.Statement}")];
            return Held(findings, causes, [.. blocking.Select(f => f.Statement), .. Told(scrap, repair)], mend, "Mend the bench, then run this unit again.", profile);
        }

        return scrap.Length > 0 || repair.Length > 0
            ? Faulty(features.Demonstration.State, findings, causes, scrap, repair, profile, unit.Symptom)
            : Sound(features, findings, causes, profile, unit.Symptom);
    }

    /// <summary>Judges a unit by its arrival inspection alone: scrap where an answer condemns it, else held, for only a run can free it.</summary>
    /// <param name="profile">The profile it is judged by.</param>
    /// <param name="unit">The return, with its arrival inspection.</param>
    public static Judgement DecideUntested(Profile profile, UnitReturn unit)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(unit);
        List<Finding> findings = Findings.Of(null, profile, unit);
        List<Cause> causes = Causes.Of(findings, profile);
        Finding[] scrap = [.. Failing(findings, Severity.Scrap)];
        Finding[] repair = [.. Failing(findings, Severity.Repair)];
        if (scrap.Length > 0)
        {
            // Nobody read the feedback: what a likely cause explains is not found by that, unless the profile's table says so.
            Judgement condemned = Faulty(SequentialState.Continue, findings, causes, scrap, repair, profile, unit.Symptom);
            return condemned.ClaimRow is null ? condemned with { Claim = ClaimOutcome.Undetermined } : condemned;
        }

        bool forbidden = ArrivalInspection.WhyNotToEnergise(unit, profile) is not null;
        string missing = forbidden
            ? "A run on the bench, after what the inspection found is mended; until then the unit must not be energised."
            : "A run on the bench: the arrival inspection alone condemns no part of this unit, and frees none.";
        return Held(findings, causes, [.. Told([], repair)], [missing], forbidden ? "Mend what the inspection found, then run the unit." : "Run the unit.", profile);
    }

    private static IEnumerable<Finding> Failing(List<Finding> findings, Severity severity) =>
        findings.Where(f => f.Decision == FindingDecision.DoesNotConform && f.Limit.Severity == severity && !Findings.BlocksJudging(f));

    private static Judgement Faulty(
        SequentialState demonstration, List<Finding> findings, List<Cause> causes, Finding[] scrap, Finding[] repair, Profile profile, Symptom symptom)
    {
        IReadOnlyList<(Cause Cause, FaultMode Mode)> naming = Causes.Naming(causes, [.. scrap, .. repair], profile);
        (Cause? fault, FaultMode? mode) = naming.Count > 0 ? naming[0] : (null, null);

        // That something is there is decided: what is weighed is which of the faults that show so.
        double all = naming.Sum(n => n.Cause.Probability);
        IReadOnlyList<(Cause Cause, FaultMode Mode)> contenders = [.. naming.Select(n => (n.Cause with { Probability = n.Cause.Probability / all }, n.Mode))];
        IReadOnlyList<RankedCheck> telling = NextChecks.Rank([.. contenders.Select(c => c.Cause)], profile);
        RepairWorth worth = RepairWorth.Of(repair, contenders, profile, telling.Count > 0);
        if (scrap.Length == 0 && worth.Undecided is { } undecided)
        {
            string missing = RepairSentence.Undecided(undecided, profile.Economics);
            return Held(findings, causes, [.. Told(scrap, repair), missing], [missing], CheckSentence.Of(telling[0]), profile);
        }

        WorkPlan work = worth.Plan;
        bool beyond = scrap.Length > 0 || work.TooDear;

        // What was seen on arrival stands whatever else is wrong: no check would change where the unit goes.
        bool condemned = scrap.Any(InspectionFindings.Is);
        List<string> reasons = [.. Told(scrap, repair)];
        if (scrap.Length == 0 && (work.TooDear || work.Items.Count > 0))
        {
            // After the finding that speaks loudest: the fault first, what follows from it second.
            reasons.Insert(1, work.TooDear ? RepairSentence.TooDear(work, profile.Economics) : RepairSentence.Worth(work, profile.Economics));
        }

        Judgement judgement = new()
        {
            Outcome = RunOutcome.Judged,
            Disposition = beyond ? Disposition.Scrap : Disposition.Repairable,
            Claim = ClaimOutcome.Undetermined,
            Findings = findings,
            Causes = causes,
            Checks = condemned ? [] : Checks(causes, profile),
            Reasons = reasons,
            Work = beyond ? [] : work.Items,
            WorkCost = beyond ? 0 : work.Cost,
            Missing = [],
            NextStep = condemned ? Recycle : Next(beyond, causes, fault, work, profile),
        };
        return Claims.Decide(judgement, mode, symptom, demonstration, profile);
    }

    private static string Next(bool beyond, List<Cause> causes, Cause? fault, WorkPlan work, Profile profile)
    {
        if (fault is { Probability: < CauseIsClear } && NextChecks.Rank(causes, profile) is [var check, ..])
        {
            return $"First check: {CheckSentence.Of(check)}";
        }

        return beyond ? Recycle
            : work.Items.Count > 0 ? work.Items[0].Work
            : "Take the unit to the repair bench; the profile names no remedy for this.";
    }

    private static Judgement Sound(RunFeatures features, List<Finding> findings, List<Cause> causes, Profile profile, Symptom symptom)
    {
        List<string> missing = MissingEvidence.Of(features, findings, profile);
        List<string> notes = [.. findings
            .Where(f => f.Decision == FindingDecision.DoesNotConform || (f.Decision == FindingDecision.Undecided && Findings.LiesOutside(f)))
            .Select(f => f.Statement)];
        if (ProvokedSentence.Of(features, profile, symptom) is string provoked)
        {
            notes.Insert(0, provoked);
        }

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
            // What frees the unit goes first; what is to be known of it beside that follows.
            Reasons =
            [
                FormattableString.Invariant(
                    $"{claimed} in {d.Moves} moves, of which {d.Failed} failed: with 95 % confidence fewer than {100 * (d.UpperLimit95 ?? 1):0.#} % of moves fail."),
                FormattableString.Invariant(
                    $"{100 * features.Ring.Coverage:0.#} % of the {MissingEvidence.Tested(profile)} was passed often enough to find a dead sensor; at least {100 * profile.Demonstration.RingCoverage:0.#} % was asked for."),
                .. notes,
                .. findings.Where(f => f.Decision == FindingDecision.NotAssessable && Findings.IsAskedOfAll(f)).Select(f => f.Statement),
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
