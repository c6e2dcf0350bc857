using Bench.Model.Comparisons;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Pdf;
using Bench.Reporting.Plots;
using Bench.Reporting.Sections;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>A comparison of two runs as one HTML file that needs nothing else, or as PDF (docs/evidence-packet.md).</summary>
public static class ComparisonPacket
{
    /// <summary>Writes the page.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="output">Where it goes: UTF-8 without byte order mark, as the page declares. Stays open.</param>
    public static void Write(RunComparison comparison, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Page.Of(Title(comparison), Body(comparison, Draw(comparison))).Text);
    }

    /// <summary>Writes the PDF, A4.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="output">Where it goes; stays open.</param>
    public static void WritePdf(RunComparison comparison, Stream output)
    {
        RunStart a = comparison.A.Record.Start, b = comparison.B.Record.Start;
        const int shown = 16;
        IReadOnlyList<Figure> figures = Draw(comparison);
        About about = new(
            Title(comparison),
            PrintableText.Of(b.Profile.Title),
            $"run {a.Id:D}, SHA-256 {comparison.A.Hash}; run {b.Id:D}, SHA-256 {comparison.B.Hash}",
            b.Software,
            comparison.B.Record.EndedAt);
        string foot = $"{(a.Simulated || b.Simulated ? "SIMULATED, " : string.Empty)}A SHA-256 {comparison.A.Hash[..shown]}…, B SHA-256 {comparison.B.Hash[..shown]}…";
        Booklet.Write(Body(comparison, figures), figures, about, foot, output);
    }

    private static string Title(RunComparison comparison) => $"{Mark.Of(comparison.Outcome).Word}: {Units(comparison)} – two runs compared";

    private static string Units(RunComparison comparison) =>
        comparison.SameUnit ? comparison.B.Return.Serial : $"{comparison.A.Return.Serial} and {comparison.B.Return.Serial}";

    private static IReadOnlyList<Figure> Draw(RunComparison comparison) => [ComparedPositionPlot.Draw(comparison), ComparedAnglePlot.Draw(comparison)];

    private static SafeHtml Body(RunComparison comparison, IReadOnlyList<Figure> figures) => Markup.Of(
        $"""
        <header>
        <h1>Two runs compared: <bdi>{Units(comparison)}</bdi></h1>
        <p><bdi>{comparison.B.Record.Start.Profile.Title}</bdi></p>
        </header>
        {Simulated(comparison)}
        <main>
        {OutcomeSection.Of(comparison)}
        {TwoRunsSection.Of(comparison)}
        {DifferencesSection.Of(comparison)}
        {FiguresSection.Of(figures)}
        {DifferencesSection.NotCompared(comparison)}
        </main>
        """);

    private static SafeHtml Simulated(RunComparison comparison) =>
        comparison.A.Record.Start.Simulated || comparison.B.Record.Start.Simulated
            ? Markup.Of($"<aside class=\"simulated\" aria-label=\"Simulated\"><strong>SIMULATED.</strong> Unit, bench and time of {(comparison.A.Record.Start.Simulated ? comparison.B.Record.Start.Simulated ? "both runs" : "A" : "B")} are simulated: this is no evidence about a real unit.</aside>")
            : SafeHtml.None;
}
