using System.Globalization;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>How long healthy units were tested, beside the routine of fixed length.</summary>
internal static class TimeTable
{
    /// <summary>Prints it.</summary>
    /// <returns>Median of time over that of the fixed routine; 0 when no healthy unit was found so.</returns>
    public static double Write(ConfusionCampaign campaign, TextWriter to)
    {
        List<double> ratios = [];
        to.WriteLine();
        to.WriteLine(Text($"{"healthy, median",-34}{"units",6}{"rate 1/s",10}{"moves",7}{"test s",8}   {"fixed: moves",13}{"turns",7}{"test s",8}"));
        foreach (Profile profile in ShippedFamilies.All)
        {
            TestedUnit[] units = [.. campaign.FoundHealthy.Where(u => u.Record.Start.Profile.Family == profile.Family && u.PositionRateHz > 0)];
            if (units.Length == 0)
            {
                continue;
            }

            // The slowest of one link's medians: one unit's rate is a chance.
            double slowest = units.GroupBy(u => u.Link).Min(g => ConfusionCampaign.Median(g.Select(u => u.PositionRateHz ?? 0)));
            FixedRoutine[] plans = [.. units.Select(u => FixedRoutine.Of(profile, slowest, u.Record))];
            ratios.AddRange(units.Zip(plans, (u, f) => u.TestS / f.TestS));
            foreach (IGrouping<string, (TestedUnit Unit, FixedRoutine Plan)> link in units.Zip(plans).GroupBy(p => p.First.Link).OrderBy(g => g.Key))
            {
                to.WriteLine(Text(
                    $"{profile.Family + " " + link.Key,-34}{link.Count(),6}{Of(link, p => p.Unit.PositionRateHz ?? 0),10:0}{Of(link, p => p.Unit.Record.Moves.Count),7:0}{Of(link, p => p.Unit.TestS),8:0}   {Of(link, p => p.Plan.Moves),13:0}{Of(link, p => p.Plan.Revolutions),7:0}{Of(link, p => p.Plan.TestS),8:0}"));
            }
        }

        return ConfusionCampaign.Median(ratios);
    }

    private static double Of(IEnumerable<(TestedUnit Unit, FixedRoutine Plan)> link, Func<(TestedUnit Unit, FixedRoutine Plan), double> value) =>
        ConfusionCampaign.Median(link.Select(value));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
