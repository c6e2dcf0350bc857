using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What was done to bring out a fault that does not come by itself, and what came of it, worst first.</summary>
internal static class ProvocationSection
{
    public const string Id = "provocation";
    private const int MostListed = 12;

    public static bool IsThere(RunRecord record) => ProvokedStage.Of(record).Count > 0;

    public static SafeHtml Of(RunRecord record)
    {
        IReadOnlyList<ProvokedStage> stages = ProvokedStage.Of(record);
        if (stages.Count == 0)
        {
            return SafeHtml.None;
        }

        (ProvokedStage Stage, MoveFeatures Move)[] failed = [.. stages.SelectMany(s => s.FailedMoves.Select(m => (s, m)))];
        ConnectorDropout[] dropouts = [.. stages.SelectMany(s => s.Result?.Dropouts ?? [])];
        return Markup.Of(
            $"""
            <section aria-labelledby="{Id}">
            <h2 id="{Id}">Provocation</h2>
            <p>{Summary(stages)}</p>
            <div class="table"><table class="cards">
            <caption>What was done to bring out an intermittent fault, worst first; each stage has a test of its own, and none counts as use of the unit</caption>
            <thead><tr><th scope="col">Stage</th><th scope="col">What was done</th><th scope="col">Counted</th><th scope="col">What that decides</th></tr></thead>
            <tbody>
            {Markup.Join(stages.Select(Row))}</tbody>
            </table></div>
            {(dropouts.Length == 0 ? SafeHtml.None : Dropouts(dropouts))}
            {(failed.Length == 0 ? SafeHtml.None : Failed(failed))}
            </section>
            """);
    }

    private static string Summary(IReadOnlyList<ProvokedStage> stages)
    {
        int run = stages.Count(s => s.Result is not null);
        int refuted = stages.Count(s => s.Result?.Test.State == SequentialState.Refuted);
        return run == 0 ? "Nothing was provoked."
            : $"{Quantity.Count(run, "stage was", "stages were")} run of {Quantity.Number(stages.Count)}: "
                + (refuted == 0 ? "none brought out a fault often enough to tell." : $"{Quantity.Count(refuted, "stage", "stages")} brought out a fault.");
    }

    private static SafeHtml Row(ProvokedStage stage) => Markup.Of(
        $"<tr><th scope=\"row\" data-name=\"Stage\">{stage.Name}</th><td data-name=\"What was done\">{stage.Done}</td><td data-name=\"Counted\">{stage.Counted}</td><td data-name=\"What that decides\">{stage.Decided}</td></tr>\n");

    private static SafeHtml Dropouts(ConnectorDropout[] dropouts) => Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Dropouts while the connector was moved{First(dropouts.Length)}</caption>
        <thead><tr><th scope="col">Wires</th><th scope="col" class="number">At (s)</th><th scope="col" class="number">For (s)</th></tr></thead>
        <tbody>
        {Markup.Join(dropouts.Take(MostListed).Select(d => Markup.Of($"<tr><th scope=\"row\" data-name=\"Wires\">{BenchJson.Word(d.Pair)}</th><td class=\"number\" data-name=\"At (s)\">{Quantity.Fixed(d.AtS, 3)}</td><td class=\"number\" data-name=\"For (s)\">{Quantity.Fixed(d.LengthS, 3)}</td></tr>\n")))}</tbody>
        </table></div>
        """);

    private static SafeHtml Failed((ProvokedStage Stage, MoveFeatures Move)[] failed) => Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Failed moves of these stages{First(failed.Length)}</caption>
        <thead><tr><th scope="col" class="number">Move</th><th scope="col">Stage</th><th scope="col">From</th><th scope="col">To</th><th scope="col">End</th><th scope="col">Why it failed</th></tr></thead>
        <tbody>
        {Markup.Join(failed.Take(MostListed).Select(f => Markup.Of($"<tr><th scope=\"row\" class=\"number\" data-name=\"Move\">{f.Move.Number}</th><td data-name=\"Stage\">{f.Stage.Name}</td><td data-name=\"From\">{f.Move.FromPort ?? "–"}</td><td data-name=\"To\">{f.Move.ToPort ?? "–"}</td><td data-name=\"End\">{Wording.Of(f.Move.End)}</td><td data-name=\"Why\">{f.Move.FailedBecause ?? "not stated"}</td></tr>\n")))}</tbody>
        </table></div>
        """);

    private static string First(int all) => all > MostListed ? $", the first {Quantity.Number(MostListed)} of {Quantity.Number(all)}" : "";
}
