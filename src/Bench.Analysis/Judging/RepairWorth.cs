using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Whether repair is worth it where the cause is not yet clear: each contender has a plan of its own.</summary>
/// <param name="Plan">The work to be planned.</param>
/// <param name="Undecided">The contenders with their plans, likeliest first, where some are worth repair and others not, and a check by hand would tell; else null.</param>
internal sealed record RepairWorth(WorkPlan Plan, IReadOnlyList<(Cause Cause, WorkPlan Plan)>? Undecided)
{
    /// <summary>Probability from which a fault, or a side of the greatest repair, is planned for. Common practice, no source: one check by hand in five would not change the plan.</summary>
    public const double Clear = 0.8;

    /// <summary>Weighs repair.</summary>
    /// <param name="findings">Findings with severity repair.</param>
    /// <param name="contenders">Causes that show in at least one of them, likeliest first, with probabilities that sum to 1.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="canTell">Whether a check by hand would tell the contenders apart.</param>
    public static RepairWorth Of(Finding[] findings, IReadOnlyList<(Cause Cause, FaultMode Mode)> contenders, Profile profile, bool canTell)
    {
        WorkPlan byFindings = WorkPlan.For(findings, null, profile);
        if (contenders.Count == 0)
        {
            return new RepairWorth(byFindings, null);
        }

        (Cause Cause, WorkPlan Plan)[] plans = [.. contenders.Select(c => (c.Cause, WorkPlan.For(findings, c.Mode, profile)))];
        if (plans[0].Cause.Probability >= Clear)
        {
            return new RepairWorth(plans[0].Plan, null);
        }

        double dear = plans.Where(p => p.Plan.TooDear).Sum(p => p.Cause.Probability);
        if (dear > 1 - Clear && dear < Clear && canTell)
        {
            return new RepairWorth(byFindings, plans);
        }

        // Without a check the expected cost decides; the plan of the likeliest on its side is done.
        bool beyond = dear >= Clear || (dear > 1 - Clear && plans.Sum(p => p.Cause.Probability * p.Plan.Cost) > byFindings.Most);
        return byFindings.TooDear == beyond
            ? new RepairWorth(byFindings, null)
            : new RepairWorth(plans.First(p => p.Plan.TooDear == beyond).Plan, null);
    }
}
