using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Reporting;
using Bench.Reporting.Text;

namespace Bench.Tests.Reporting;

/// <summary>What the packet and the text say of stages that provoke.</summary>
public class ProvocationSectionTests
{
    [Fact]
    public void Packet_StagesThatProvoked_AreToldWorstFirstWithWhatWasDoneCountedAndDecided()
    {
        string[][] rows = Rows(SampleProvocation.Run(), 0);

        Assert.Equal(["connector moved by hand", "short starts", "greatest supply", "least supply", "warm winding"], rows.Select(r => r[0]));
        Assert.Equal(
            [
                "The connector was moved for 6 whole seconds, 2 dropouts; its test has an answer.",
                "2 of 6 seconds with a dropout",
                "Shown to fail too often; with 95 % confidence at least 6.0 % fail.",
            ],
            rows[0][1..]);
        Assert.Equal("1 of 9 starts failed", rows[1][2]);
        Assert.Equal("Ended with a failure before a decision; with 95 % confidence at most 73.0 % fail.", rows[1][3]);
        Assert.Equal(
            [
                "Moves from port to port with the supply set to 28.66 V and read back, the greatest that the unit is tested at; under load 28.41 V measured.",
                "0 of 14 moves failed",
                "Shown to fail seldom enough; with 95 % confidence at most 19.3 % fail.",
            ],
            rows[2][1..]);
    }

    [Fact]
    public void Packet_StagesThatWereNotRun_SayWhy()
    {
        string[][] rows = Rows(SampleProvocation.Run(), 0);

        Assert.Equal("Not run: 20.5 V is asked for, and the bench file allows the supply 21.0 to 30.0 V.", rows[3][1]);
        Assert.Equal("Not run: the cause is clear without it: loose feedback connector.", rows[4][1]);
    }

    [Fact]
    public void Packet_Dropouts_AreToldWithWiresInstantAndLength() => Assert.Equal(
        [["feedback", "503.118", "0.214"], ["supply", "505.900", "0.083"]],
        Rows(SampleProvocation.Run(), 1));

    [Fact]
    public void Packet_FailedMovesOfStages_AreTold() => Assert.Equal(
        [["52", "short starts", "A", "B", "ended without current", "no current flowed"]],
        Rows(SampleProvocation.Run(), 2));

    [Fact]
    public void Packet_RoutineThatProvokesNothing_HasNoSuchSection() =>
        Assert.Null(Section(SampleRun.Healthy().Run));

    [Fact]
    public void Text_StagesThatProvoked_AreALineEachAndTheOthersCounted()
    {
        string text = VerdictText.Write(SampleProvocation.Run(), 100);

        Assert.Contains("provoke - connector moved by hand: 2 of 6 seconds with a dropout; shown to fail too often", text, StringComparison.Ordinal);
        Assert.Contains("- 2 stages not run, the packet says why", text, StringComparison.Ordinal);
    }

    private static string[][] Rows(SealedRun run, int table) =>
        [.. Section(run)!.QuerySelectorAll("table")[table].QuerySelectorAll("tbody tr").Select(r => r.Children.Select(c => c.TextContent.Replace('\u00A0', ' ')).ToArray())];

    private static IElement? Section(SealedRun run)
    {
        using StringWriter html = new();
        EvidencePacket.Write(run, new Trace(), html);
        return new HtmlParser().ParseDocument(html.ToString()).QuerySelector("section[aria-labelledby=provocation]");
    }
}
