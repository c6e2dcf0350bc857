using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Bench.Model.Runs;
using Bench.Reporting;
using Bench.Reporting.Text;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Bench.Tests.Reporting;

/// <summary>The PDF, read back by a library of others (PdfPig).</summary>
public sealed class EvidencePdfTests
{
    // A4 less the margin that is kept free at the sides, in points.
    private const double Left = 39;
    private const double Right = 595.3 - 39;

    [Theory]
    [InlineData("healthy")]
    [InlineData("dead-sensors")]
    [InlineData("held")]
    [InlineData("aborted")]
    public void FirstPage_AnyOutcome_HoldsVerdictClaimReasonsAndNextStep(string outcome)
    {
        SampleRun run = EvidencePacketTests.Sample(outcome);
        RunRecord record = run.Run.Record;
        using PdfDocument pdf = Read(run);

        HashSet<string> words = [.. Words(pdf.GetPage(1))];

        Assert.Contains(Mark.Of(record).Word.ToUpperInvariant(), words);
        Assert.Contains(record.Start.Return.Serial, words);
        string[] told = [.. record.Judgement?.Reasons.Take(3) ?? [], record.Judgement?.NextStep ?? record.AbortText!];
        Assert.All(told.SelectMany(Split), word => Assert.Contains(word, words));
    }

    [Theory]
    [InlineData("healthy")]
    [InlineData("dead-sensors")]
    [InlineData("held")]
    [InlineData("aborted")]
    public void Text_AnyOutcome_IsThatOfThePage(string outcome)
    {
        const int longest = 24; // longer ones are broken where a line ends
        SampleRun run = EvidencePacketTests.Sample(outcome);
        using IDocument page = new HtmlParser().ParseDocument(EvidencePacketTests.Html(run));
        foreach (IElement screen in page.QuerySelectorAll("nav, .screen, .unseen, figure svg"))
        {
            screen.Remove();
        }

        using PdfDocument pdf = Read(run);

        HashSet<string> printed = [.. pdf.GetPages().SelectMany(Words)];
        string[] text = [.. page.QuerySelectorAll("h1, h2, h3, p, aside, li, dt, dd, th, td, caption, figcaption").SelectMany(e => Split(e.TextContent))];
        Assert.True(text.Length > 200);
        Assert.Empty(text.Where(w => w.Length <= longest).Except(printed));
    }

    [Fact]
    public void Pages_LongLog_EachNamesRunAndNumberAndRepeatsTheHead()
    {
        SampleRun run = SampleRun.DeadSensors();
        run = run with
        {
            Run = run.Run with
            {
                Record = run.Run.Record with { Events = [.. Enumerable.Range(0, 400).Select(i => new RunEvent(i, RunEventKind.Note, $"event number {i}"))] },
            },
        };
        using PdfDocument pdf = Read(run);

        Page[] pages = [.. pdf.GetPages()];
        Assert.All(pages, (page, index) =>
        {
            string text = string.Join(' ', Words(page));
            Assert.Contains($"page {index + 1} of {pages.Length}", text, StringComparison.Ordinal);
            Assert.Contains(run.Run.Record.Start.Id.ToString("D"), text, StringComparison.Ordinal);
            Assert.Contains(run.Run.Hash[..16], text, StringComparison.Ordinal);
        });
        Page[] log = [.. pages.Where(p => Words(p).Count(w => w == "event") > 20)];
        Assert.True(log.Length > 2);
        Assert.All(log, page => Assert.Contains("Kind", Words(page)));
    }

    [Theory]
    [InlineData("A serial number that is far too long for its place but has spaces in it, as people write them")]
    [InlineData("Aserialnumberthatisfartoolongforitsplaceandhasnospacesinit,aspeoplewritethemwhentheyareinahurryorsimplydonotcareforthelayoutofareport")]
    [InlineData("<b>bold</b> & \"quoted\" \u202Eturned\u0000 中文 😀")]
    public void Pages_AnyText_KeepEveryLetterWithinTheMargins(string text)
    {
        using PdfDocument pdf = Read(EvidencePacketTests.Hostile(text));

        Assert.All(pdf.GetPages(), page => Assert.All(page.Letters, letter =>
        {
            Assert.InRange(letter.StartBaseLine.X, Left, Right);
            Assert.InRange(letter.EndBaseLine.X, Left, Right + 0.5);
            Assert.InRange(letter.StartBaseLine.Y, 20, 842 - 39);
        }));
    }

    [Fact]
    public void Plots_Always_AreVectorsWithText()
    {
        using PdfDocument pdf = Read(SampleRun.DeadSensors());

        Assert.All(pdf.GetPages(), page => Assert.Empty(page.GetImages()));
        Assert.Equal(1, pdf.GetPages().Sum(p => Occurrences(p.Text, "Landing error (counts)")));
        Assert.True(pdf.GetPage(1).Paths.Count > 10);
    }

    [Fact]
    public void Information_Always_NamesUnitRunAndHash()
    {
        SampleRun run = SampleRun.Held();
        using PdfDocument pdf = Read(run);

        Assert.Equal(EvidencePacket.Title(run.Run), pdf.Information.Title);
        Assert.Equal($"run {run.Run.Record.Start.Id:D}, SHA-256 {run.Run.Hash}", pdf.Information.Keywords);
    }

    [Fact]
    public void Write_Twice_GivesTheSameBytes() =>
        Assert.Equal(Bytes(SampleRun.DeadSensors()), Bytes(SampleRun.DeadSensors()));

    private static PdfDocument Read(SampleRun run) => PdfDocument.Open(Bytes(run));

    private static byte[] Bytes(SampleRun run)
    {
        using MemoryStream output = new();
        EvidencePdf.Write(run.Run, run.Trace, output);
        return output.ToArray();
    }

    private static int Occurrences(string text, string part) => text.Split(part).Length - 1;

    private static IEnumerable<string> Words(Page page) => page.GetWords().SelectMany(w => Split(w.Text));

    private static string[] Split(string text) => text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
}
