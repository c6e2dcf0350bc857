using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>Where a profile's share of a finding under a fault is not what the campaign saw.</summary>
internal static class ShowsTable
{
    /// <summary>Prints the features whose share lies outside the exact 95 % interval.</summary>
    public static void Write(ConfusionCampaign campaign, TextWriter to)
    {
        to.WriteLine();
        to.WriteLine($"{"shows under a fault",-62}{"profile",8}   seen");
        foreach (IGrouping<(string Family, string Condition), TestedUnit> group in campaign.OnSoundBench
            .Where(u => u.Record.Judgement is not null).GroupBy(u => (u.Record.Start.Profile.Family, u.Condition)).OrderBy(g => g.Key))
        {
            Profile profile = group.First().Record.Start.Profile;
            if (profile.FaultModes.FirstOrDefault(m => m.Id == group.Key.Condition) is not { } mode)
            {
                continue;
            }

            foreach (string feature in profile.Limits.Select(l => l.Feature).Distinct())
            {
                Rate seen = new(group.Count(u => Fails(u, feature)), group.Count());
                double share = mode.Shows.GetValueOrDefault(feature, Profile.BackgroundShow);
                (double low, double high) = seen.Interval;
                if (share < low || share > high)
                {
                    to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{group.Key.Family + " " + mode.Id + " " + feature,-62}{100 * share,6:0} %{seen}"));
                }
            }
        }
    }

    private static bool Fails(TestedUnit unit, string feature) =>
        unit.Record.Judgement!.Findings.Any(f => f.Feature.Name == feature && f.Decision == FindingDecision.DoesNotConform);
}
