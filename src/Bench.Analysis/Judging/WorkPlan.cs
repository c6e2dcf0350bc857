using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Remedies of findings in the order of work, and what they cost.</summary>
/// <param name="Items">Each remedy once.</param>
/// <param name="Cost">Cost of all.</param>
/// <param name="Most">Greatest cost at which repair is worth while.</param>
internal sealed record WorkPlan(IReadOnlyList<WorkItem> Items, double Cost, double Most)
{
    /// <summary>Whether repair costs more than it is worth.</summary>
    public bool TooDear => Cost > Most;

    /// <summary>The plan for findings.</summary>
    /// <param name="findings">Those with severity repair.</param>
    /// <param name="mode">The fault that is taken to be there: its own remedy takes the place of those of the findings it explains; null for none.</param>
    /// <param name="profile">The profile.</param>
    public static WorkPlan For(IEnumerable<Finding> findings, FaultMode? mode, Profile profile)
    {
        HashSet<string> needed = [];
        foreach (Finding finding in findings)
        {
            bool explained = mode?.Remedy is not null && mode.Names(finding);
            if ((explained ? mode!.Remedy : finding.Limit.Remedy) is string remedy)
            {
                needed.Add(remedy);
            }
        }

        List<WorkItem> items = [];
        foreach (Remedy r in profile.Remedies.Where(r => needed.Contains(r.Id)).OrderBy(r => r.Order))
        {
            double cost = r.PartsCost + (r.Minutes / 60 * profile.Economics.LabourPerHour);
            items.Add(new WorkItem(r.Id, r.Work, r.PartsCost, r.Minutes, cost));
        }

        return new WorkPlan(
            items, items.Sum(i => i.Cost), profile.Economics.GreatestRepairFraction * profile.Economics.ReplacementCost);
    }
}
