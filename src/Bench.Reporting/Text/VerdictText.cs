using System.Globalization;
using System.Text;
using Bench.Model.Entries;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Reporting.Text;

/// <summary>A run as short plain text for a terminal: verdict, claim, reasons, what to do next. No colour codes.</summary>
public static class VerdictText
{
    /// <summary>Least width that is honoured; below it words would stand alone.</summary>
    public const int LeastWidth = 32;

    private const int MostReasons = 3;

    /// <summary>The text, lines ended by <c>\n</c>, none longer than the width unless one word is.</summary>
    /// <param name="run">The run.</param>
    /// <param name="width">Columns, at least <see cref="LeastWidth"/> (less is taken as that).</param>
    public static string Write(SealedRun run, int width = 80)
    {
        RunRecord record = run.Record;
        Mark mark = Mark.Of(record);
        StringBuilder text = new();
        LabelledLines lines = new(text, Math.Max(LeastWidth, width));

        lines.Add("verdict", $"{mark.Shape} {mark.Word.ToUpperInvariant()}" + (record.Start.Simulated ? "  (simulated)" : string.Empty));
        lines.Add("unit", $"{run.Return.Serial}, {record.Start.Profile.Title}");
        if (record.Judgement is { } judgement)
        {
            lines.Add("claim", $"{BenchJson.Word(judgement.Claim)}: {Wording.Of(judgement.Claim)}");
            Judged(lines, record, judgement);
        }
        else
        {
            lines.Add("why", record.Abort is { } abort ? $"{BenchJson.Word(abort)}: {Wording.Of(abort)}" : "not stated");
            lines.Add(string.Empty, record.AbortText ?? string.Empty);
        }

        Provoked(lines, record);
        lines.Add("outputs", record.IsInspectionOnly ? "none was touched: judged by the arrival inspection alone" : record.OutputsConfirmedOff ? "confirmed off" : "▲ NOT confirmed off: isolate the supply by hand before touching the unit");
        foreach (SealedEntry entry in run.Entries)
        {
            lines.Add(entry == run.Entries[0] ? "later" : string.Empty, "- " + EntryWording.Of(entry.Entry) + (entry.Entry is SignOff && EntryWording.Stale(run.Entries, entry) is { } stale ? " " + stale : string.Empty));
        }

        lines.Add("run", record.Start.Id.ToString("D", CultureInfo.InvariantCulture));

        // No-break spaces have done their work in wrapping; in a terminal they only spoil searching and pasting.
        return text.Replace('\u00A0', ' ').ToString();
    }

    private static void Provoked(LabelledLines lines, RunRecord record)
    {
        IReadOnlyList<ProvokedStage> stages = ProvokedStage.Of(record);
        ProvokedStage[] run = [.. stages.Where(s => s.Result is not null)];
        for (int i = 0; i < run.Length; i++)
        {
            lines.Add(i == 0 ? "provoke" : string.Empty, $"- {run[i].Name}: {run[i].Counted}; {run[i].State}");
        }

        if (run.Length > 0 && run.Length < stages.Count)
        {
            lines.Add(string.Empty, $"- {Quantity.Count(stages.Count - run.Length, "stage", "stages")} not run, the packet says why");
        }
    }

    private static void Judged(LabelledLines lines, RunRecord record, Judgement judgement)
    {
        // What is missing has a list of its own.
        string[] reasons = [.. judgement.Reasons.Except(judgement.Missing)];
        for (int i = 0; i < Math.Min(MostReasons, reasons.Length); i++)
        {
            lines.Add(i == 0 ? "because" : string.Empty, "- " + reasons[i]);
        }

        if (reasons.Length > MostReasons)
        {
            lines.Add(string.Empty, $"- and {Quantity.Count(reasons.Length - MostReasons, "more reason", "more reasons")} in the packet");
        }

        for (int i = 0; i < judgement.Missing.Count; i++)
        {
            lines.Add(i == 0 ? "missing" : string.Empty, "- " + judgement.Missing[i]);
        }

        if (judgement.Causes is [{ } cause, ..])
        {
            lines.Add("cause", $"{cause.Name}, {Quantity.Percent(cause.Probability)}");
        }

        if (judgement.Work.Count > 0)
        {
            lines.Add(
                "work",
                $"{Quantity.Count(judgement.Work.Count, "item", "items")}, {Quantity.Fixed(judgement.Work.Sum(w => w.Minutes), 0)} min, "
                + Quantity.Money(judgement.WorkCost, record.Start.Profile.Economics.Currency));
        }

        lines.Add("next", judgement.NextStep);
    }
}
