using System.Globalization;
using System.Text;
using Bench.Model.Comparisons;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>A comparison as plain text for a terminal: what it says, then a table of features. No colour codes.</summary>
public static class ComparisonText
{
    /// <summary>The text, lines ended by <c>\n</c>; a table where the columns have room for it, else a few lines for each feature.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="width">Columns.</param>
    public static string Write(RunComparison comparison, int width)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        StringBuilder text = new();
        LabelledLines lines = new(text, Math.Max(VerdictText.LeastWidth, width));
        Mark mark = Mark.Of(comparison.Outcome);
        lines.Add("result", $"{mark.Shape} {mark.Word.ToUpperInvariant()}: {ComparisonSentences.Of(comparison.Outcome)}");
        lines.Add("unit", $"{(comparison.SameUnit ? comparison.B.Return.Serial : $"{comparison.A.Return.Serial} and {comparison.B.Return.Serial}")}, {comparison.B.Record.Start.Profile.Title}");
        lines.Add("A", Run(comparison.A));
        lines.Add("B", Run(comparison.B));
        lines.Items("first", ComparisonConditions.Differing(comparison));
        lines.Items("found", ComparisonSentences.Of(comparison));
        lines.Items("assumed", ComparisonConditions.Assumed(comparison));
        text.Append('\n');
        string[][] rows = [["", "feature", "A", "B", "B - A", "E_n", "p (Holm)"], .. comparison.Features.Where(f => f.Value is not null).Select(f => Row(comparison, f))];
        Table(text, rows, Math.Max(VerdictText.LeastWidth, width));
        return text.Replace('\u00A0', ' ').ToString();
    }

    private static string Run(SealedRun run)
    {
        RunStart start = run.Record.Start;
        Mark mark = Mark.Of(run.Record);
        string claim = run.Record.Judgement is { } judgement ? $", claim {BenchJson.Word(judgement.Claim)}" : string.Empty;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{start.StartedAt:yyyy-MM-dd HH:mm}, {start.Bench.Name} {start.Bench.Position}, profile {start.Profile.Version}: {mark.Shape} {mark.Word}{claim}{(start.Simulated ? " (simulated)" : "")}, run {start.Id:D}");
    }

    private static string[] Row(RunComparison comparison, FeatureDifference f) =>
    [
        Mark.Of(f.Outcome).Shape, PrintableText.Of(Wording.Title((f.B ?? f.A)!)), DifferenceText.Value(f.A, comparison.A.Return),
        DifferenceText.Value(f.B, comparison.B.Return), DifferenceText.Of(f), DifferenceText.En(f), DifferenceText.P(f.AdjustedP),
    ];

    private static void Table(StringBuilder text, string[][] rows, int width)
    {
        int[] widths = [.. Enumerable.Range(0, rows[0].Length).Select(column => rows.Max(r => r[column].Length))];
        bool fits = widths.Sum() + (2 * (widths.Length - 1)) <= width;
        foreach (string[] row in fits ? rows : rows[1..])
        {
            text.Append(fits
                ? string.Join("  ", row.Select((cell, column) => column < 2 ? cell.PadRight(widths[column]) : cell.PadLeft(widths[column]))).TrimEnd()
                : $"{row[0]} {row[1]}\n    {row[2]} -> {row[3]}{(row[4] == "–" ? "" : $"\n    {row[4]}")}{(row[5] == "–" ? "" : $"   E_n {row[5]}")}{(row[6] == "–" ? "" : $"   p {row[6]}")}").Append('\n');
        }

        text.Append($"{string.Join(", ", Enum.GetValues<DifferenceOutcome>().Where(o => o != DifferenceOutcome.NotAssessable).Select(o => $"{Mark.Of(o).Shape} {Mark.Of(o).Word}"))}\n");
    }
}
