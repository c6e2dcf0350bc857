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

    /// <summary>Probability from which the fault's own remedy is planned, and not those of all the findings it shows in.</summary>
    private const double PlanByFault = 0.8;

    /// <summary>The plan for findings.</summary>
    /// <param name="findings">Those with severity repair.</param>
    /// <param name="fault">The likeliest fault among those that show in them; null for none.</param>
    /// <param name="mode">Its mode; null for none.</param>
    /// <param name="profile">The profile.</param>
    public static WorkPlan For(IEnumerable<Finding> findings, Cause? fault, FaultMode? mode, Profile profile)
    {
        HashSet<string> needed = [];
        bool clear = fault is { Probability: >= PlanByFault } && mode?.Remedy is not null;
        foreach (Finding finding in findings)
        {
            bool explained = clear && mode!.Shows.GetValueOrDefault(finding.Feature.Name) > Profile.BackgroundShow;
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
