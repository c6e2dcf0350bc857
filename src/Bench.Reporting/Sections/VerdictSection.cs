using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What a reader must find in ten seconds: verdict, claim, strongest reasons, the picture, what to do.</summary>
internal static class VerdictSection
{
    private const int MostReasons = 3;

    /// <summary>The plot that shows why: of the worst finding, else of the demonstration; null when there is none.</summary>
    public static Figure? KeyFigure(RunRecord record, IReadOnlyList<Figure> figures)
    {
        IEnumerable<string> wanted =
        [
            .. record.Judgement?.Disposition == Disposition.Reusable ? (string[])[SequentialTestPlot.Id] : [],
            .. (record.Judgement?.Findings ?? [])
                .Where(f => f.Decision != FindingDecision.Conforms && InspectionFeatures.Item(f.Feature.Name) is null)
                .OrderBy(f => f.Decision != FindingDecision.DoesNotConform)
                .Select(f => AllPlots.For(f.Feature.Name)),
            SequentialTestPlot.Id,
            MoveCurrentPlot.Id,
            SupplyPlot.Id,
        ];
        return wanted.Select(id => figures.First(f => f.Id == id)).FirstOrDefault(f => f.IsDrawn);
    }

    public static SafeHtml Of(RunRecord record, Figure? key)
    {
        Mark mark = Mark.Of(record);
        return Markup.Of(
            $"""
            <section class="verdict {mark.Tone}{(key is null ? " alone" : string.Empty)}" aria-labelledby="verdict">
            <div>
            <h2 id="verdict" class="unseen">Verdict</h2>
            <p class="word">{Shapes.Of(mark)}<span>{mark.Word.ToUpperInvariant()}</span></p>
            {(record.Judgement is { } judgement ? Judged(judgement, record.Start.Return) : Aborted(record))}
            {Outputs(record)}
            {Next(record)}
            </div>
            {(key is null ? SafeHtml.None : Markup.Of($"<div class=\"key\">{FiguresSection.Of(key)}</div>"))}
            </section>
            """);
    }

    private static SafeHtml Judged(Judgement judgement, UnitReturn unit) => Markup.Of(
        $"""
        <p class="claim">Claim ({Wording.Of(unit.Symptom)}) <strong>{BenchJson.Word(judgement.Claim)}</strong>: {Wording.Of(judgement.Claim)}{(judgement.ClaimRow is { } row ? $", by row {Quantity.Number(row)} of the profile's claim table" : string.Empty)}.</p>
        {Reasons([.. judgement.Reasons.Except(judgement.Missing)], judgement.Findings)}
        {Missing(judgement)}
        """);

    // What is missing has a list of its own.
    private static SafeHtml Reasons(string[] reasons, IReadOnlyList<Finding> findings) => reasons.Length == 0 ? SafeHtml.None : Markup.Of(
        $"""
        <h3>{(reasons.Length > MostReasons ? "Strongest reasons" : "Reasons")}</h3>
        <ol class="reasons">
        {Markup.Join(reasons.Take(MostReasons).Select(r => Reason(r, findings)))}</ol>
        {(reasons.Length > MostReasons ? Markup.Of($"<p class=\"quiet\">{Quantity.Count(reasons.Length - MostReasons, "more reason", "more reasons")} among the <a href=\"#findings\">findings</a>.</p>") : SafeHtml.None)}
        """);

    // A reason is a sentence; where it is a finding's statement, the finding's plot is a click away.
    private static SafeHtml Reason(string reason, IReadOnlyList<Finding> findings) =>
        findings.FirstOrDefault(f => reason.Contains(f.Statement, StringComparison.Ordinal)) is { } finding
            ? Markup.Of($"<li>{reason} {Evidence(finding)}</li>\n")
            : Markup.Of($"<li>{reason}</li>\n");

    private static SafeHtml Evidence(Finding finding) => InspectionFeatures.Item(finding.Feature.Name) is null
        ? Markup.Of($"<a class=\"screen\" href=\"#plot-{AllPlots.For(finding.Feature.Name)}\">plot</a>")
        : Markup.Of($"<a class=\"screen\" href=\"#{InspectionSection.Id}\">inspection</a>");

    private static SafeHtml Missing(Judgement judgement) =>
        judgement.Missing.Count == 0
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <h3>What is missing for a verdict</h3>
                <ul class="reasons">
                {Markup.Join(judgement.Missing.Select(m => Markup.Of($"<li>{m}</li>\n")))}</ul>
                """);

    private static SafeHtml Aborted(RunRecord record) => Markup.Of(
        $"""
        <p class="claim">The run was stopped and gives no verdict on the unit.</p>
        <h3>Why</h3>
        <p>{(record.Abort is { } reason ? $"{BenchJson.Word(reason)}: {Wording.Of(reason)}" : "not stated")}.</p>
        """);

    private static SafeHtml Next(RunRecord record) => Markup.Of(
        $"""
        <div class="next">
        <h3>What to do next</h3>
        <p>{record.Judgement?.NextStep ?? record.AbortText ?? "Find out from the event log what stopped the run, mend it, and run again."}</p>
        <p class="quiet">Before connecting or opening anything, read the <a href="#cautions">cautions</a>.</p>
        </div>
        """);

    private static SafeHtml Outputs(RunRecord record) =>
        !record.OutputsConfirmedOff
            ? Markup.Of($"<p class=\"warning bad\" role=\"alert\">▲ The outputs were NOT confirmed off when the run ended. Isolate the supply by hand before touching the unit.</p>")
            : record.Outcome == RunOutcome.Aborted
                ? Markup.Of($"<p class=\"confirmed\">● The outputs were confirmed off by read-back when the run ended.</p>")
                : SafeHtml.None;
}
