using System.Globalization;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Campaigns.Confusion;

/// <summary>How long healthy units were tested, beside the routine of fixed length.</summary>
internal static class TimeTable
{
    /// <summary>Healthy units of a family that say how often the fixed routine must turn the ring: of fewer, the 95th of a hundred is a matter of luck.</summary>
    private const int Slowest = 200;

    /// <summary>Their seeds, which no campaign's units have.</summary>
    private const ulong FirstSeed = 1_000_000_000;

    /// <summary>Prints it.</summary>
    /// <returns>Medians of time over that of the fixed routine, and over that of its moves alone; 0 when no healthy unit was found so.</returns>
    public static (double WithRing, double MovesAlone) Write(ConfusionCampaign campaign, bool mismatch, TextWriter to)
    {
        List<double> alone = [];
        List<double> ratios = [];
        List<double> least = [];
        to.WriteLine();
        to.WriteLine(Text($"{"healthy, median",-34}{"units",6}{"rate 1/s",10}{"moves",7}{"turns",7}{"test s",8}"));
        foreach (Profile profile in ShippedFamilies.All)
        {
            TestedUnit[] units = [.. campaign.FoundHealthy.Where(u => u.Record.Start.Profile.Family == profile.Family && u.PositionRateHz > 0)];
            if (units.Length == 0)
            {
                continue;
            }

            RunRecord[] slowest = AtSlowestLink(profile, mismatch, out double served);
            FixedRoutine plan = FixedRoutine.Of(profile, slowest);
            FixedRoutine lenient = FixedRoutine.Of(profile, slowest, FixedRoutine.ServedAtLeast);
            ratios.AddRange(units.Select(u => u.TestS / plan.TestS));
            least.AddRange(units.Select(u => u.TestS / lenient.TestS));
            alone.AddRange(units.Select(u => u.TestS / plan.MovesAloneS));
            foreach (IGrouping<string, TestedUnit> link in units.GroupBy(u => u.Link).OrderBy(g => g.Key))
            {
                to.WriteLine(Text(
                    $"{profile.Family + " " + link.Key,-34}{link.Count(),6}{Of(link, u => u.PositionRateHz ?? 0),10:0}{Of(link, u => u.Record.Moves.Count),7:0}{Of(link, u => FixedRoutine.TurnsOf(u.Record)),7:0}{Of(link, u => u.TestS),8:0}"));
            }

            to.WriteLine(Text($"{profile.Family + " fixed",-34}{"",6}{"",10}{plan.Moves,7}{plan.Turns,7:0}{plan.TestS,8:0}"));
            to.WriteLine(Text($"{profile.Family + " fixed, 95 % served",-34}{"",6}{"",10}{lenient.Moves,7}{lenient.Turns,7:0}{lenient.TestS,8:0}  the bench serves {100 * served:0.0} % of {Slowest} at the slowest link"));
        }

        to.WriteLine(Text($"of the time of a fixed routine that serves 95 %: {ConfusionCampaign.Median(least):0.00}"));
        return (ConfusionCampaign.Median(ratios), ConfusionCampaign.Median(alone));
    }

    private static RunRecord[] AtSlowestLink(Profile profile, bool mismatch, out double served)
    {
        TestedUnit[] units = new TestedUnit[Slowest];
        Parallel.For(0, Slowest, i =>
        {
            TestedUnit unit = ConfusionRun.HealthyAtSlowestLink(profile, FirstSeed + (ulong)i, mismatch);
            units[i] = unit with { Record = unit.Record with { Events = [], Features = null } };
        });
        RunRecord[] covered = [.. units.Where(u => u.Right).Select(u => u.Record)];
        served = covered.Length / (double)Slowest;
        return covered;
    }

    private static double Of(IEnumerable<TestedUnit> units, Func<TestedUnit, double> value) => ConfusionCampaign.Median(units.Select(value));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
