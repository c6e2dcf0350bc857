using System.Globalization;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>How long healthy units were tested, beside the routine of fixed length.</summary>
internal static class TimeTable
{
    /// <summary>Prints it.</summary>
    /// <returns>Medians of time over that of the fixed routine, and over that of its moves alone; 0 when no healthy unit was found so.</returns>
    public static (double WithRing, double MovesAlone) Write(ConfusionCampaign campaign, TextWriter to)
    {
        List<double> alone = [];
        List<double> ratios = [];
        to.WriteLine();
        to.WriteLine(Text($"{"healthy, median",-34}{"units",6}{"rate 1/s",10}{"moves",7}{"turns",7}{"test s",8}"));
        foreach (Profile profile in ShippedFamilies.All)
        {
            TestedUnit[] units = [.. campaign.FoundHealthy.Where(u => u.Record.Start.Profile.Family == profile.Family && u.PositionRateHz > 0)];
            if (units.Length == 0)
            {
                continue;
            }

            FixedRoutine plan = FixedRoutine.Of(profile, [.. units
                .GroupBy(u => u.Link)
                .MinBy(g => ConfusionCampaign.Median(g.Select(u => u.PositionRateHz ?? 0)))!
                .Select(u => u.Record)]);
            ratios.AddRange(units.Select(u => u.TestS / plan.TestS));
            alone.AddRange(units.Select(u => u.TestS / plan.MovesAloneS));
            foreach (IGrouping<string, TestedUnit> link in units.GroupBy(u => u.Link).OrderBy(g => g.Key))
            {
                to.WriteLine(Text(
                    $"{profile.Family + " " + link.Key,-34}{link.Count(),6}{Of(link, u => u.PositionRateHz ?? 0),10:0}{Of(link, u => u.Record.Moves.Count),7:0}{Of(link, u => FixedRoutine.TurnsOf(u.Record)),7:0}{Of(link, u => u.TestS),8:0}"));
            }

            to.WriteLine(Text($"{profile.Family + " fixed",-34}{"",6}{"",10}{plan.Moves,7}{plan.Turns,7:0}{plan.TestS,8:0}"));
        }

        return (ConfusionCampaign.Median(ratios), ConfusionCampaign.Median(alone));
    }

    private static double Of(IEnumerable<TestedUnit> units, Func<TestedUnit, double> value) => ConfusionCampaign.Median(units.Select(value));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
