using System.Text;
using Bench.Cli.Running;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Cli.Output;

/// <summary>The units of a round, a row each.</summary>
internal static class UnitTable
{
    private static readonly string[] Heads = ["serial", "position", "outcome", "disposition", "likeliest cause", "packet"];

    /// <summary>The table, lines ended by <c>\n</c>. Packets are named without their folder, which stands below.</summary>
    public static string Of(IReadOnlyList<UnitResult> results)
    {
        string[][] rows = [Heads, .. results.Select(Row)];
        int[] widths = [.. Heads.Select((_, column) => rows.Max(r => r[column].Length))];
        StringBuilder text = new();
        foreach (string[] row in rows)
        {
            text.Append(string.Join("  ", row.Select((cell, column) => cell.PadRight(widths[column]))).TrimEnd()).Append('\n');
        }

        if (results.FirstOrDefault(r => r.Packet is not null)?.Packet is { } packet)
        {
            text.Append($"Packets in {Path.GetDirectoryName(packet)}\n");
        }

        return text.ToString();
    }

    private static string[] Row(UnitResult result) =>
    [
        result.Unit.Return.Serial,
        result.Unit.Position.Name,
        result.Record is { } record ? BenchJson.Word(record.Outcome) : "not recorded",
        result.Record?.Judgement?.Disposition is { } disposition ? BenchJson.Word(disposition) : "-",
        Cause(result.Record),
        result.Packet is { } packet ? Path.GetFileName(packet) : "-",
    ];

    private static string Cause(RunRecord? record) =>
        record?.Judgement?.Causes is [{ } first, ..] ? first.Id : record?.Abort is { } abort ? BenchJson.Word(abort) : "-";
}
