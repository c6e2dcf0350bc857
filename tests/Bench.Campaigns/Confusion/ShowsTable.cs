using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>Where a profile's share of a finding under a fault is not what the campaign saw: an aid for whoever writes the next profile, no target.</summary>
internal static class ShowsTable
{
    /// <summary>Prints the features whose share lies outside the exact 95 % interval (Clopper and Pearson), of conditions that are one fault mode.</summary>
    public static void Write(ConfusionCampaign campaign, TextWriter to)
    {
        to.WriteLine();
        to.WriteLine($"{"shows under a fault",-62}{"profile",8}   seen");
        int compared = 0, outside = 0;
        foreach (IGrouping<(string Family, string Condition), TestedUnit> group in campaign.OnSoundBench
            .Where(u => u.Record.Judgement is not null).GroupBy(u => (u.Record.Start.Profile.Family, u.Condition)).OrderBy(g => g.Key))
        {
            Profile profile = group.First().Record.Start.Profile;
            if (group.First().Truth.Causes is not [var id] || profile.FaultModes.FirstOrDefault(m => m.Id == id) is not { } mode)
            {
                continue;
            }

            foreach (string feature in profile.Limits.Select(l => l.Feature).Distinct())
            {
                // What was not looked at, such as a stage that was not needed any more, says nothing.
                TestedUnit[] looked = [.. group.Where(u => Findings(u, feature).Any(f => f.Decision != FindingDecision.NotAssessable))];
                if (looked.Length == 0)
                {
                    continue;
                }

                Rate seen = new(looked.Count(u => Fails(u, feature)), looked.Length);
                double share = mode.Shows.GetValueOrDefault(feature, Profile.BackgroundShow);
                (double low, double high) = seen.Interval;
                compared++;
                if (share < low || share > high)
                {
                    outside++;
                    to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{group.Key.Family + " " + mode.Id + " " + feature,-62}{100 * share,6:0} %{seen}"));
                }
            }
        }

        to.WriteLine($"{outside} of {compared} shares lie outside; by chance alone about 1 in 20 may");
    }

    private static bool Fails(TestedUnit unit, string feature) => Findings(unit, feature).Any(f => f.Decision == FindingDecision.DoesNotConform);

    private static IEnumerable<Finding> Findings(TestedUnit unit, string feature) =>
        unit.Record.Judgement!.Findings.Where(f => f.Feature.Name == feature);
}
