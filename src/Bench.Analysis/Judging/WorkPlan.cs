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
    public static WorkPlan For(IEnumerable<Finding> findings, Profile profile)
    {
        HashSet<string> needed = [.. findings.Select(f => f.Limit.Remedy).OfType<string>()];
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
