using Bench.Model.Serialization;
using Bench.Records.Returns;

namespace Bench.Cli.Intakes;

/// <summary>Says that a unit is back.</summary>
internal static class EarlierVisits
{
    /// <summary>A heading and a line for each earlier run, newest first; nothing for a unit that was never here.</summary>
    public static IEnumerable<string> Lines(IReadOnlyList<EarlierVisit> visits)
    {
        if (visits.Count > 0)
        {
            yield return $"■ Repeat return: unit {visits[0].Run.Serial} was here before, {visits.Count} {(visits.Count == 1 ? "run" : "runs")}.";
        }

        foreach (EarlierVisit visit in visits)
        {
            string came = visit.Run.Disposition is { } d ? BenchJson.Word(d) : visit.Run.Outcome is { } o ? BenchJson.Word(o) : "open";
            string claim = visit.Run.Claim is { } c ? $", claim {BenchJson.Word(c)}" : "";
            yield return $"  {visit.Run.StartedAt.UtcDateTime:yyyy-MM-dd}, {visit.DaysBefore} {(visit.DaysBefore == 1 ? "day" : "days")} ago: {came}{claim} (run {visit.Run.Id})";
        }
    }
}
