using Bench.Model.Entries;
using Bench.Model.Serialization;
using Bench.Records.Returns;

namespace Bench.Cli.Intakes;

/// <summary>Says that a unit is back.</summary>
internal static class EarlierVisits
{
    /// <summary>A heading and a line for each earlier run and other return, newest first; nothing for a unit that was never here.</summary>
    /// <param name="visits">Earlier runs of one unit.</param>
    /// <param name="others">Other returns of that unit.</param>
    public static IEnumerable<string> Lines(IReadOnlyList<EarlierVisit> visits, IReadOnlyList<ReturnEntry> others)
    {
        string? serial = visits.Select(v => v.Run.Serial).Concat(others.Select(o => o.Return.Serial)).FirstOrDefault();
        if (serial is not null)
        {
            yield return $"■ Repeat return: unit {serial} was here before, {Counted(visits.Count, "run")} and {Counted(others.Count, "other return")}.";
        }

        foreach (EarlierVisit visit in visits)
        {
            string came = visit.Run.Disposition is { } d ? BenchJson.Word(d) : visit.Run.Outcome is { } o ? BenchJson.Word(o) : "open";
            string claim = visit.Run.Claim is { } c ? $", claim {BenchJson.Word(c)}" : "";
            yield return $"  {visit.Run.StartedAt.UtcDateTime:yyyy-MM-dd}, {Counted(visit.DaysBefore, "day")} ago: {came}{claim} (run {visit.Run.Id})";
        }

        foreach (ReturnEntry other in others)
        {
            yield return $"  {other.MadeAt.UtcDateTime:yyyy-MM-dd}: taken in as return {other.Return.ReturnNumber}";
        }
    }

    private static string Counted(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";
}
