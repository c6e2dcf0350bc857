using Bench.Model.Features;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting.Pdf;
using Bench.Reporting.Plots;
using Bench.Reporting.Text;

namespace Bench.Reporting;

/// <summary>
/// The evidence packet as PDF, A4: the sections of <see cref="EvidencePacket"/>, set for paper. Plots are vectors, text
/// can be selected and searched, the font is embedded, and every page names its run (docs/evidence-packet.md).
/// </summary>
public static class EvidencePdf
{
    /// <summary>Writes the PDF. The same run, trace and reference give the same bytes, unless a text asks for a font of the machine.</summary>
    /// <param name="run">The sealed run.</param>
    /// <param name="trace">Its trace; empty when the run has no samples.</param>
    /// <param name="output">Where it goes; stays open.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    /// <param name="attached">Gives the content of a photo of the return; null where it is gone. Without it photos are only listed.</param>
    public static void Write(SealedRun run, Trace trace, Stream output, CurrentReference? reference = null, Func<Attachment, byte[]?>? attached = null)
    {
        IReadOnlyList<Figure> figures = EvidencePacket.Figures(run, trace, reference);
        RunStart start = run.Record.Start;
        About about = new(
            EvidencePacket.Title(run),
            $"{PrintableText.Of(run.Return.Serial)}, {PrintableText.Of(start.Profile.Title)}",
            $"run {start.Id:D}, SHA-256 {run.Hash}",
            start.Software,
            run.Record.EndedAt);
        const int shown = 16;
        string simulated = start.Simulated ? "SIMULATED, " : string.Empty;
        Booklet.Write(EvidencePacket.Body(run, figures, attached), figures, about, $"{simulated}run {start.Id:D}, SHA-256 {run.Hash[..shown]}…", output);
    }
}
