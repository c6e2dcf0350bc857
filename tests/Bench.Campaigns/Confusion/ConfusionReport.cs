using System.Globalization;
using Bench.Model.Judging;

namespace Bench.Campaigns.Confusion;

/// <summary>Prints a campaign's tables and its result line.</summary>
public static class ConfusionReport
{
    private const int MostMisses = 60;

    /// <summary>Targets, in percent.</summary>
    private const double MostFalseScrap = 0.2, MostEscapes = 0.5, LeastTop1 = 95, LeastTop2 = 99, MostHeld = 5;

    /// <summary>What "gracefully" means under mismatch, in percent: wrong verdicts stay rare, and what is lost is held.</summary>
    private const double MostFalseScrapUnlike = 1, MostEscapesUnlike = 1, MostWrongUnlike = 5, MostHeldUnlike = 20;

    /// <summary>Prints.</summary>
    /// <returns>Whether every target is met.</returns>
    public static bool Write(ConfusionCampaign campaign, bool mismatch, TextWriter to)
    {
        Table(campaign, to);
        Misses(campaign, to);
        OutOfReach(campaign, to);
        Rate sure = CalibrationTable.Write(campaign, to);
        ShowsTable.Write(campaign, to);
        if (mismatch)
        {
            VariationTable.Write(campaign, to);
        }

        (double timeRatio, double movesAlone, double ratio) = TimeTable.Write(campaign, mismatch, to);
        double fixedMoves = ShippedFamilies.All.Average(f => FixedPlan.Moves(f.Demonstration));
        Rate top1 = campaign.Causes(1);
        Rate top2 = campaign.Causes(2);
        to.WriteLine();
        to.WriteLine($"false scrap                     {campaign.FalseScrap}");
        to.WriteLine($"condemned though not faulty     {campaign.Condemned}");
        to.WriteLine($"escapes                         {campaign.Escapes}");
        to.WriteLine($"right disposition, sound bench  {campaign.Right}");
        to.WriteLine($"wrong verdict, sound bench      {campaign.Wrong}");
        to.WriteLine($"held, sound bench               {campaign.Held}");
        to.WriteLine($"right claim, sound bench        {campaign.Claims}");
        to.WriteLine($"cause first                     {top1}");
        to.WriteLine($"cause first or second           {top2}");
        to.WriteLine(Text($"{$"right of causes said {100 * CalibrationTable.Sure:0} % sure",-31}{sure}"));
        to.WriteLine(Text($"healthy units took {campaign.HealthyMoves:0} moves in the median; a fixed plan of the same error rates takes {fixedMoves:0}; with what provoked, {ratio:0.00} of the fixed plans' moves"));
        to.WriteLine(Text($"their test took {timeRatio:0.00} of the time of a fixed routine that covers the ring at the slowest link, {movesAlone:0.00} of that of the fixed plan's moves alone"));
        to.WriteLine(Text($"RESULT false_scrap_pct={campaign.FalseScrap.Percent:0.00} escape_pct={campaign.Escapes.Percent:0.00} cause_top1_pct={top1.Percent:0.0} cause_top2_pct={top2.Percent:0.0} held_pct={campaign.Held.Percent:0.0} calibration={sure.Percent:0.0} moves_ratio={ratio:0.00} time_ratio={timeRatio:0.00} units={campaign.Units.Count}"));
        return mismatch
            ? campaign.FalseScrap.Percent < MostFalseScrapUnlike && campaign.Escapes.Percent < MostEscapesUnlike
                && campaign.Wrong.Percent < MostWrongUnlike && campaign.Held.Percent < MostHeldUnlike
            : campaign.FalseScrap.Percent < MostFalseScrap && campaign.Escapes.Percent < MostEscapes
            && top1.Percent >= LeastTop1 && top2.Percent >= LeastTop2 && campaign.Held.Percent < MostHeld;
    }

    private static void Table(ConfusionCampaign campaign, TextWriter to)
    {
        to.WriteLine(Text($"{"condition",-24}{"units",6} {"reusable",9}{"repairable",11}{"scrap",7}{"held",6}{"aborted",8} {"right",7} {"cause 1",8}{"cause 2",8} {"claim",7} {"moves",6}"));
        foreach (IGrouping<(string Family, string Condition), TestedUnit> group in campaign.Units.GroupBy(u => (u.Family, u.Condition)).OrderBy(g => g.Key.Family).ThenBy(g => g.Key.Condition))
        {
            TestedUnit[] units = [.. group];
            TestedUnit[] judged = [.. units.Where(u => u.Record.Outcome == RunOutcome.Judged)];
            string name = $"{group.Key.Family[0]} {group.Key.Condition}";
            to.WriteLine(Text(
                $"{name,-24}{units.Length,6} {Said(units, "Reusable"),9}{Said(units, "Repairable"),11}{Said(units, "Scrap"),7}{Said(units, "Held"),6}{Said(units, "Aborted"),8} {Percent(units, u => u.Right),7} {Percent(judged, u => u.NamesCause(1)),8}{Percent(judged, u => u.NamesCause(2)),8} {Percent(units, u => u.Record.Judgement?.Claim == u.Truth.Claim),7} {units.Average(u => u.Record.Moves.Count),6:0}"));
        }
    }

    private static void Misses(ConfusionCampaign campaign, TextWriter to)
    {
        to.WriteLine();
        foreach (TestedUnit unit in campaign.OnSoundBench.Where(u => !u.Right || !u.NamesCause(1)).Take(MostMisses))
        {
            string causes = string.Join(", ", unit.Record.Judgement?.Causes.Take(2).Select(c => Text($"{c.Id} {100 * c.Probability:0} %")) ?? []);
            string why = unit.Record.AbortText ?? (unit.Record.Judgement?.Reasons is [var first, ..] ? first : "");
            string failing = string.Join(" ", unit.Record.Judgement?.Findings
                .Where(f => f.Decision == FindingDecision.DoesNotConform)
                .Select(f => Text($"{f.Feature.Name}={f.Feature.Value:0.##}")).Distinct() ?? []);
            to.WriteLine($"seed {unit.Seed} {unit.Family} {unit.Condition} {unit.Link}{string.Concat(unit.Variations.Select(v => " " + v))}: {unit.Said}; {causes}; {why} {failing}");
        }
    }

    // No bench finds what it can't provoke; what it says then must not be surer than that.
    private static void OutOfReach(ConfusionCampaign campaign, TextWriter to)
    {
        TestedUnit[] units = [.. campaign.OutOfReach];
        if (units.Length > 0)
        {
            double none = units.Average(u => u.Record.Judgement?.Causes.FirstOrDefault(c => c.Id == "none")?.Probability ?? 0);
            to.WriteLine(Text(
                $"{units.Length} units whose fault their bench could not provoke: {Said(units, "Reusable")} judged reusable, {Said(units, "Held")} held; no fault said with {100 * none:0} % in the mean"));
        }
    }

    private static int Said(TestedUnit[] units, string what) => units.Count(u => u.Said == what);

    private static string Percent(TestedUnit[] units, Func<TestedUnit, bool> hits) =>
        units.Length == 0 ? "-" : Text($"{100.0 * units.Count(hits) / units.Length:0}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
