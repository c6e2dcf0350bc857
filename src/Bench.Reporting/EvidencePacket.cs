using Bench.Model.Entries;
using Bench.Model.Features;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting.Html;
using Bench.Reporting.Plots;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;

namespace Bench.Reporting;

/// <summary>
/// The evidence packet: one run as one HTML file that needs nothing else, now or in ten years. No script, no reference
/// to anything outside; fonts and plots are inside (docs/evidence-packet.md).
/// </summary>
public static class EvidencePacket
{
    /// <summary>Writes the packet. The same run, trace and reference give the same text on every machine.</summary>
    /// <param name="run">The sealed run.</param>
    /// <param name="trace">Its trace; empty when the run has no samples. Plots of time need it, the rest does not.</param>
    /// <param name="output">Where it goes: UTF-8 without byte order mark, as the page declares. Stays open.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    /// <param name="attached">Gives the content of a photo of the return; null where it is gone. Without it photos are only listed.</param>
    public static void Write(SealedRun run, Trace trace, TextWriter output, CurrentReference? reference = null, Func<Attachment, byte[]?>? attached = null)
    {
        output.Write(Page.Of(Title(run), Body(run, Figures(run, trace, reference), attached)).Text);
    }

    /// <summary>Title of the document: what a list of open files shows.</summary>
    internal static string Title(SealedRun run) =>
        $"{Mark.Of(run.Record).Word}: {run.Return.Serial} – evidence packet{(run.Record.Start.Simulated ? " (simulated)" : string.Empty)}";

    /// <summary>The plots; those that lack a dropped trace say that it was dropped.</summary>
    internal static IReadOnlyList<Figure> Figures(SealedRun run, Trace trace, CurrentReference? reference)
    {
        IReadOnlyList<Figure> figures = AllPlots.Draw(run.Record, trace, reference);
        return trace.Count == 0 && run.Entries.Select(e => e.Entry).OfType<DroppedTrace>().FirstOrDefault() is { } drop
            ? [.. figures.Select(f => f.IsDrawn || f.Id is not (MoveCurrentPlot.Id or SupplyPlot.Id) ? f : f with { OmittedBecause = $"the trace was dropped by policy on {Moment.Of(DateOnly.FromDateTime(drop.MadeAt.UtcDateTime))}" })]
            : figures;
    }

    /// <summary>What the packet says, on a page and in a PDF.</summary>
    internal static SafeHtml Body(SealedRun run, IReadOnlyList<Figure> figures, Func<Attachment, byte[]?>? attached)
    {
        RunRecord record = run.Record;
        Figure? key = VerdictSection.KeyFigure(record, figures);
        return Markup.Of(
            $"""
            {Masthead.Of(run)}
            <main>
            {VerdictSection.Of(record, key)}
            {Masthead.Contents(record)}
            {FactsSection.Of(run)}
            {InspectionSection.Of(run, attached ?? (_ => null))}
            {FindingsSection.Of(record, figures)}
            {BudgetSection.Of(record)}
            {DemonstrationSection.Of(record)}
            {ProvocationSection.Of(record)}
            {CausesSection.Of(record)}
            {WorkSection.Of(record)}
            {FiguresSection.Of([.. figures.Where(f => f != key)])}
            {CautionsSection.Of()}
            {EntriesSection.Of(run)}
            {IntegritySection.Of(run)}
            {LinksSection.Of(record)}
            {EventsSection.Of(record)}
            </main>
            """);
    }
}
