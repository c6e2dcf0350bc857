using System.Globalization;
using Bench.Model.Profiles;
using Bench.Model.Returns;
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
    /// <returns>
    /// Medians of time over that of the fixed routine, of time over that of its moves alone, and of moves over its moves; 0 when no
    /// healthy unit was found so. What provokes counts in both, where the field reported a fault that comes and goes.
    /// </returns>
    public static (double WithRing, double MovesAlone, double Moves) Write(ConfusionCampaign campaign, bool mismatch, TextWriter to)
    {
        List<double> alone = [];
        List<double> ratios = [];
        List<double> least = [];
        List<double> moves = [];
        to.WriteLine();
        to.WriteLine(Text($"{"healthy, median",-52}{"units",6}{"rate 1/s",10}{"moves",7}{"turns",7}{"test s",8}"));
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
            FixedProvocation provocation = FixedProvocation.Of(profile, [.. units.Select(u => u.Record)]);
            foreach (TestedUnit unit in units)
            {
                (int provoked, double provokedS) = provocation.For(unit);
                ratios.Add(unit.TestS / (plan.TestS + provokedS));
                least.Add(unit.TestS / (lenient.TestS + provokedS));
                alone.Add(unit.TestS / (plan.MovesAloneS + provokedS));
                moves.Add(unit.Record.Moves.Count(FixedProvocation.IsTrial) / (double)(plan.Moves + provoked));
            }

            foreach (IGrouping<string, TestedUnit> link in units.GroupBy(How).OrderBy(g => g.Key))
            {
                to.WriteLine(Text(
                    $"{profile.Family + " " + link.Key,-52}{link.Count(),6}{Of(link, u => u.PositionRateHz ?? 0),10:0}{Of(link, u => u.Record.Moves.Count),7:0}{Of(link, u => FixedRoutine.TurnsOf(u.Record)),7:0}{Of(link, u => u.TestS),8:0}"));
            }

            to.WriteLine(Text($"{profile.Family + " fixed, nothing provoked",-52}{"",6}{"",10}{plan.Moves,7}{plan.Turns,7:0}{plan.TestS,8:0}"));
            to.WriteLine(Text($"{profile.Family + " fixed, 95 % served",-52}{"",6}{"",10}{lenient.Moves,7}{lenient.Turns,7:0}{lenient.TestS,8:0}  the bench serves {100 * served:0.0} % of {Slowest} at the slowest link"));
        }

        to.WriteLine(Text($"of the time of a fixed routine that serves 95 %: {ConfusionCampaign.Median(least):0.00}"));
        return (ConfusionCampaign.Median(ratios), ConfusionCampaign.Median(alone), ConfusionCampaign.Median(moves));
    }

    private static string How(TestedUnit unit) =>
        unit.Link + (unit.Record.Start.Return.Symptom == Symptom.Constant ? " constant"
            : $" intermittent{(unit.Reach.SetsSupply ? ", supply" : "")}{(unit.Reach.IsAttended ? ", person" : "")}");

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
