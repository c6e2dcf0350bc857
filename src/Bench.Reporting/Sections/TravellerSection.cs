using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Safety;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What the page says that goes with the unit.</summary>
internal static class TravellerSection
{
    private const int MostReasons = 3;

    // The first three stand for all on a small page: codes, isolating, polarity and current limit.
    private const int FirstCautions = 3;

    /// <summary>Verdict, unit and claim, beside the code.</summary>
    public static SafeHtml Head(SealedRun run)
    {
        RunRecord record = run.Record;
        UnitReturn unit = run.Return;
        RunStart start = record.Start;
        Mark mark = Mark.Of(record);
        return Markup.Of(
            $"""
            <div class="{mark.Tone}"><p class="word">{Shapes.Of(mark)}<span>{mark.Word.ToUpperInvariant()}</span></p></div>
            <h1>{unit.Serial}</h1>
            {(unit.Serial == start.Return.Serial ? SafeHtml.None : Markup.Of($"<p class=\"quiet\">Serial number corrected; sealed as {start.Return.Serial}.</p>"))}
            <p>{start.Profile.Title}{(start.Simulated ? " – SIMULATED, no real unit" : string.Empty)}</p>
            <p class="quiet">Part {unit.PartNumber ?? "not given"}, return {unit.ReturnNumber ?? "not given"}, tested {Moment.Of(start.StartedAt)}</p>
            <p>{(record.Judgement is { } judgement ? $"Claim {BenchJson.Word(judgement.Claim)}: {Wording.Of(judgement.Claim)}." : "The run was stopped and gives no verdict on the unit.")}</p>
            """);
    }

    /// <summary>All of it, for A4.</summary>
    public static SafeHtml Of(SealedRun run) => Markup.Of(
        $"""
        {Next(run.Record)}
        {Reasons(run.Record)}
        <h2>Cautions, before connecting or opening anything</h2>
        <ol>{Markup.Join(Cautions.All.Select(c => Markup.Of($"<li>{c}</li>\n")))}</ol>
        {Work(run.Record)}
        {Signature()}
        {Identity(run)}
        """);

    /// <summary>The short form, for A6.</summary>
    public static SafeHtml ShortOf(SealedRun run) => Markup.Of(
        $"""
        {Next(run.Record)}
        <h3>Cautions</h3>
        <ol>{Markup.Join(Cautions.All.Take(FirstCautions).Select(c => Markup.Of($"<li>{c}</li>\n")))}</ol>
        <p class="quiet">The evidence packet and the traveller hold all cautions; read them before opening the unit.</p>
        {Work(run.Record)}
        {Identity(run)}
        """);

    private static SafeHtml Next(RunRecord record) => Markup.Of(
        $"""
        <div class="{Mark.Of(record).Tone}"><div class="next"><h3>What to do next</h3><p>{record.Judgement?.NextStep ?? record.AbortText ?? "Find out from the event log what stopped the run, mend it, and run again."}</p></div></div>
        {(record.OutputsConfirmedOff ? SafeHtml.None : Markup.Of($"<p class=\"warning bad\">▲ The outputs were NOT confirmed off when the run ended. Isolate the supply by hand before touching the unit.</p>"))}
        """);

    private static SafeHtml Reasons(RunRecord record)
    {
        string[] reasons = [.. record.Judgement?.Missing.Count > 0 ? record.Judgement.Missing : record.Judgement?.Reasons ?? []];
        return reasons.Length == 0 ? SafeHtml.None : Markup.Of(
            $"""
            <h3>{(record.Judgement!.Missing.Count > 0 ? "What is missing for a verdict" : "Why")}</h3>
            <ol>{Markup.Join(reasons.Take(MostReasons).Select(r => Markup.Of($"<li>{r}</li>\n")))}</ol>
            """);
    }

    private static SafeHtml Work(RunRecord record)
    {
        if (record.Judgement is not { Work.Count: > 0 } judgement)
        {
            return SafeHtml.None;
        }

        return Markup.Of(
            $"""
            <h2>Order of work</h2>
            <table>
            <thead><tr><th>Step</th><th>Work</th><th class="number">Minutes</th><th>Done</th></tr></thead>
            <tbody>{Markup.Join(judgement.Work.Select((w, i) => Row(i + 1, w)))}</tbody>
            </table>
            <p class="quiet">Then test the unit again: a repair is shown by a run, not by the work.</p>
            """);
    }

    private static SafeHtml Row(int step, WorkItem item) =>
        Markup.Of($"<tr><td>{step}</td><td>{item.Work}</td><td class=\"number\">{Quantity.Fixed(item.Minutes, 0)}</td><td>□</td></tr>\n");

    private static SafeHtml Signature() => Markup.Of(
        $"""
        <p> </p>
        <p>Work done by ______________________________   on ____________________   new run ______________________</p>
        """);

    private static SafeHtml Identity(SealedRun run) => Markup.Of(
        $"""
        <p class="quiet">Run {run.Record.Start.Id.ToString("D")}, SHA-256 {run.Hash}. The code holds both; 'bench verify' holds the hash against the record.</p>
        """);
}
