using Bench.Model.Comparisons;
using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>Both runs side by side: what they are, how they came out, how much evidence each has.</summary>
internal static class TwoRunsSection
{
    public static SafeHtml Of(RunComparison comparison) => Markup.Of(
        $"""
        <section aria-labelledby="runs">
        <h2 id="runs">The two runs</h2>
        <div class="facts">
        {Run("A", comparison.A)}
        {Run("B", comparison.B)}
        </div>
        <h3 id="assumed">What is taken for granted</h3>
        <ul>
        {Markup.Join(ComparisonConditions.Assumed(comparison).Select(s => Markup.Of($"<li>{s}</li>\n")))}</ul>
        </section>
        """);

    private static SafeHtml Run(string name, SealedRun run)
    {
        RunRecord record = run.Record;
        RunStart start = record.Start;
        Mark mark = Mark.Of(record);
        return Markup.Of(
            $"""
            <section aria-labelledby="run-{name}"><h3 id="run-{name}">{name}: <bdi>{run.Return.Serial}</bdi></h3><dl>
            {Fact("Verdict", $"{mark.Shape} {mark.Word}")}{Fact("Claim", record.Judgement is { } judgement ? BenchJson.Word(judgement.Claim) : "none: the run was stopped")}{Fact("Likeliest cause", record.Judgement?.Causes is [{ } cause, ..] ? $"{cause.Name}, {Quantity.Percent(cause.Probability)}" : "none told")}{Fact("Began", Moment.Of(start.StartedAt))}{Fact("Bench", $"{start.Bench.Name}, position {start.Bench.Position}")}{Fact("Meters", $"current calibrated {Moment.Of(start.Bench.Current.CalibratedOn)}, voltage {Moment.Of(start.Bench.Voltage.CalibratedOn)}")}{Fact("Profile", $"{start.Profile.Family} {start.Profile.Version}")}{Hash("Profile file", start.Profile.Sha256)}{Hash("Bench file", start.Bench.Sha256)}{Fact("Software", start.Software)}{Fact("Return", run.Return.ReturnNumber ?? "not given")}{Fact("Symptom", Wording.Of(run.Return.Symptom))}{Fact("Moves", Moves(record.Features))}{Fact("Ring tested", record.Features is { } features ? Quantity.Percent(features.Ring.Coverage) : "–")}{Fact("Run", start.Id.ToString("D"))}{Hash("Sealed as", run.Hash)}</dl></section>
            """);
    }

    private static string Moves(RunFeatures? features) => features is null
        ? "–"
        : $"{Quantity.Count(features.Demonstration.Moves, "move", "moves")} counted, {Quantity.Number(features.Demonstration.Failed)} failed{(features.Demonstration.UpperLimit95 is { } most ? $"; at most {Quantity.Percent(most)} fail, with 95 % confidence" : string.Empty)}";

    private static SafeHtml Fact(string name, string value) => Markup.Of($"<dt>{name}</dt><dd><bdi>{value}</bdi></dd>\n");

    private static SafeHtml Hash(string name, string sha256) => Markup.Of($"<dt>{name}</dt><dd><code>SHA-256 {sha256}</code></dd>\n");
}
