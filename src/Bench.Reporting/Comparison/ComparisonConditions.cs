using Bench.Model.BenchFiles;
using Bench.Model.Comparisons;
using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>What two runs differ in besides the unit's condition, and what their comparison takes for granted.</summary>
public static class ComparisonConditions
{
    /// <summary>What differs, plain sentences, weightiest first; empty when nothing does.</summary>
    public static IReadOnlyList<string> Differing(RunComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        SealedRun a = comparison.A, b = comparison.B;
        RunStart startA = a.Record.Start, startB = b.Record.Start;
        IEnumerable<string?> all =
        [
            startA.Id == startB.Id ? "A and B are one and the same run." : null,
            startA.Simulated != startB.Simulated ? $"{(startA.Simulated ? "A" : "B")} is simulated and the other is not: no difference here says anything of a real unit." : null,
            comparison.SameUnit ? null : $"Two units: A is {a.Return.Serial}, B is {b.Return.Serial}. What units of one family differ by among themselves is in every difference.",
            .. Profiles(comparison, startA, startB),
            .. Benches(comparison, startA.Bench, startB.Bench),
            startA.Software == startB.Software ? null : $"Software differs: {startA.Software} in A, {startB.Software} in B; what a newer version computes otherwise looks like a change of the unit.",
            startB.StartedAt < startA.StartedAt ? "B is the older run: differences are B minus A, against the course of time." : null,
            a.Return.Symptom == b.Return.Symptom ? null : $"Reported symptoms differ: {BenchJson.Word(a.Return.Symptom)} in A, {BenchJson.Word(b.Return.Symptom)} in B.",
            Later("A", a),
            Later("B", b),
        ];
        return [.. all.OfType<string>()];
    }

    /// <summary>What is taken for granted, plain sentences.</summary>
    public static IReadOnlyList<string> Assumed(RunComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        string? meters = (comparison.SameCurrentMeter, comparison.SameVoltageMeter) switch
        {
            (true, true) => "Current and voltage were",
            (true, false) => "Current was",
            (false, true) => "Voltage was",
            _ => null,
        };
        IEnumerable<string?> all =
        [
            meters is null
                ? "No meter is common to both runs in one calibration: all sources of uncertainty but the motor's own are taken as independent."
                : $"{meters} read by one meter in one calibration: its error is taken as the same in both runs, and only what it does otherwise to each is left in U.",
            comparison.SameUnit ? "One motor turned in both runs: the tolerance of its torque constant is taken as the same in both." : null,
            "U covers what varies within a run. What varies from run to run (temperature of winding and grease, mounting, setting of the supply) is in it only where the bench file has a gauge study"
                + (Studies(comparison) is { Length: > 0 } studies ? $"; it has one of {studies}." : "; it has none."),
            "Moves and readings are taken as independent trials, in the shares and rates of failures.",
            $"{Quantity.Count(comparison.Tested, "feature was", "features were")} tested; the chance that chance alone makes any of them differ is at most 4.6 % over all of them together (Holm), as |E_n| > 1 has for one.",
        ];
        return [.. all.OfType<string>()];
    }

    private static IEnumerable<string?> Profiles(RunComparison comparison, RunStart a, RunStart b)
    {
        if (!comparison.SameProfile)
        {
            yield return $"Profiles differ: version {a.Profile.Version} (SHA-256 {Short(a.Profile.Sha256)}) in A, {b.Profile.Version} (SHA-256 {Short(b.Profile.Sha256)}) in B. "
                + "Decisions are compared by the limits of B's; the sealed verdicts stand as they were.";
        }
    }

    private static IEnumerable<string?> Benches(RunComparison comparison, BenchSnapshot a, BenchSnapshot b)
    {
        if (a.Name != b.Name)
        {
            yield return $"Benches differ: A was run on {a.Name}, position {a.Position}; B on {b.Name}, position {b.Position}. What the benches differ by is in every difference; U holds what their meters may.";
            yield break;
        }

        if (a.Position != b.Position)
        {
            yield return $"Positions of the bench differ: {a.Position} in A, {b.Position} in B.";
        }

        bool told = false;
        foreach ((string name, MeterDescription before, MeterDescription after, bool same) in new[]
        {
            ("current", a.Current, b.Current, comparison.SameCurrentMeter), ("voltage", a.Voltage, b.Voltage, comparison.SameVoltageMeter),
        })
        {
            if (!same)
            {
                told = true;
                yield return before.CalibratedOn == after.CalibratedOn && before.Certificate == after.Certificate
                    ? $"The {name} meter is described otherwise in B than in A."
                    : $"The {name} meter was calibrated between the runs: {Moment.Of(before.CalibratedOn)} ({before.Certificate}) in A, {Moment.Of(after.CalibratedOn)} ({after.Certificate}) in B.";
            }
        }

        if (!told && a.Position == b.Position && a.Sha256 != b.Sha256)
        {
            yield return $"The bench file of {a.Name} was changed between the runs (SHA-256 {Short(a.Sha256)}, then {Short(b.Sha256)}).";
        }
    }

    private static string? Later(string name, SealedRun run) =>
        run.Entries.Select(e => e.Entry).OfType<LaterJudgement>().LastOrDefault() is { } later
            ? $"{name} was judged again after it was sealed, last under profile version {later.ProfileVersion}: {(later.Judgement.Disposition is { } to ? BenchJson.Word(to) : BenchJson.Word(later.Judgement.Outcome))}, claim {BenchJson.Word(later.Judgement.Claim)}."
            : null;

    private static string Studies(RunComparison comparison) => string.Join(
        ", ",
        comparison.A.Record.Start.Bench.Gauges.Concat(comparison.B.Record.Start.Bench.Gauges).Select(g => Wording.Title(g.Feature)).Distinct().Select(t => t.ToLowerInvariant()));

    private static string Short(string sha256) => sha256.Length > 8 ? sha256[..8] + "…" : sha256;
}
