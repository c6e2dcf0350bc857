using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Every finding, worst first.</summary>
internal static class FindingsSection
{
    public static SafeHtml Of(RunRecord record, IReadOnlyList<Figure> figures) =>
        record.Judgement is not { } judgement
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <section aria-labelledby="findings">
                <h2 id="findings">Findings</h2>
                <div class="table">
                <table class="cards">
                <caption>{Quantity.Count(judgement.Findings.Count, "finding", "findings")}, worst first: {Tally(judgement)}. Uncertainty U = k u, k = 2 or Student's t for about 95 % where few observations stand behind u; conformity is the probability that the true value lies within the limit. Rule simple: the value alone decides; guarded: it must be clear of the limit by U.</caption>
                <thead><tr><th scope="col">Finding</th><th scope="col">Decision</th><th scope="col" class="number">Value ± U</th><th scope="col" class="number">Limit</th><th scope="col">Rule</th><th scope="col" class="number">Conformity</th><th scope="col">If not met</th></tr></thead>
                {Markup.Join(judgement.Findings.Select(f => Row(f, record.Start, figures)))}</table>
                </div>
                </section>
                """);

    private static string Tally(Judgement judgement) => string.Join(
        ", ",
        judgement.Findings.GroupBy(f => f.Decision).Select(g => $"{BenchJson.Word(g.Key)} {Quantity.Number(g.Count())}"));

    private static SafeHtml Row(Finding finding, RunStart start, IReadOnlyList<Figure> figures)
    {
        Mark mark = Mark.Of(finding.Decision);
        string probability = finding.ConformityProbability is { } p ? Quantity.Percent(p) : "–";
        return Markup.Of(
            $"""
            <tbody class="finding">
            <tr><th scope="row"><bdi>{Wording.Title(finding.Feature)}</bdi></th><td class="{mark.Tone}"><span class="mark">{mark.Shape} {mark.Word}</span></td><td class="number" data-name="Value">{Value(finding.Feature, start)}</td><td class="number" data-name="Limit">{Limit(finding, start)}</td><td data-name="Rule">{BenchJson.Word(finding.Limit.Rule)}</td><td class="number" data-name="Conformity">{probability}</td><td data-name="If not met">{Severity(finding.Limit.Severity)}</td></tr>
            <tr class="statement"><td colspan="7">{finding.Statement}{Plot(finding, figures)}</td></tr>
            </tbody>

            """);
    }

    // An item of the arrival inspection has words for a value and for a limit.
    private static string Value(Feature feature, RunStart start) =>
        InspectionFeatures.Item(feature.Name) is string item ? start.Return.Answer(item) ?? InspectionAnswer.NotLooked : Quantity.Of(feature);

    private static string Limit(Finding finding, RunStart start) =>
        start.Profile.Inspection.FirstOrDefault(i => i.Feature == finding.Feature.Name) is { } item
            ? string.Join(", ", item.Conforms)
            : Wording.Of(finding.Limit, finding.Feature.Unit);

    private static string Severity(Severity severity) => BenchJson.Word(severity);

    private static SafeHtml Plot(Finding finding, IReadOnlyList<Figure> figures)
    {
        if (InspectionFeatures.Item(finding.Feature.Name) is not null)
        {
            return Markup.Of($" <a class=\"screen\" href=\"#{InspectionSection.Id}\">inspection</a>");
        }

        Figure figure = figures.First(f => f.Id == AllPlots.For(finding.Feature.Name));
        return !figure.IsDrawn ? SafeHtml.None : Markup.Of($" <a class=\"screen\" href=\"#plot-{figure.Id}\">plot</a>");
    }
}
