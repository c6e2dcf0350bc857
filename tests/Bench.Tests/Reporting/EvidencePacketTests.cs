using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Bench.Model.Runs;
using Bench.Model.Safety;
using Bench.Reporting;

namespace Bench.Tests.Reporting;

public class EvidencePacketTests
{
    // Stated in docs/evidence-packet.md: small enough for mail.
    private const int MostBytes = 1_500_000;

    public static TheoryData<string> Outcomes => ["healthy", "dead-sensors", "held", "aborted"];

    [Theory]
    [InlineData("healthy", "REUSABLE", "not-reproduced")]
    [InlineData("dead-sensors", "REPAIRABLE", "confirmed")]
    [InlineData("held", "HELD", "undetermined")]
    public void Write_JudgedOrHeld_SaysVerdictClaimReasonsPictureAndNextStepFirst(string outcome, string word, string claim)
    {
        SampleRun run = Sample(outcome);

        IElement verdict = Page(run).QuerySelector("main > section.verdict")!;

        Assert.Equal(word, verdict.QuerySelector(".word")!.TextContent.Trim());
        Assert.NotNull(verdict.QuerySelector(".word svg"));
        Assert.Equal(claim, verdict.QuerySelector(".claim strong")!.TextContent);
        Assert.Equal(run.Run.Record.Judgement!.Reasons.Take(3).Count(), verdict.QuerySelectorAll("ol.reasons > li").Length);
        Assert.NotNull(verdict.QuerySelector("figure svg"));
        Assert.Contains(run.Run.Record.Judgement.NextStep, verdict.QuerySelector(".next")!.TextContent, StringComparison.Ordinal);
        Assert.Same(verdict, Page(verdict).QuerySelector("main")!.FirstElementChild);
    }

    [Fact]
    public void Write_DeadSensors_ShowsTheRingBesideTheVerdict() =>
        Assert.NotNull(Page(SampleRun.DeadSensors()).QuerySelector(".verdict #plot-ring"));

    [Fact]
    public void Write_Healthy_ShowsAgeAndJitterOfReadingsBesideTheLinks()
    {
        IElement table = Page(SampleRun.Healthy()).QuerySelectorAll("section[aria-labelledby=links] table")[1];
        string[][] rows = [.. table.QuerySelectorAll("tbody tr").Select(r => r.Children.Select(c => c.TextContent).ToArray())];
        Assert.Equal(["Position", "8409", "6.42", "9.80", "51.30", "0.20"], rows[0]);
        Assert.Equal(["Current, voltage, inputs", "2803", "–", "–", "–", "–"], rows[1]);
    }

    [Fact]
    public void Write_MeasuredFeature_TellsWhatItsGiveOrTakeIsMadeOf()
    {
        IElement table = Page(SampleRun.Healthy()).QuerySelector("details.budget table")!;
        string[][] rows = [.. table.QuerySelectorAll("tbody tr").Select(r => r.Children.Select(c => c.TextContent.Replace('\u00A0', ' ')).ToArray())];
        Assert.Equal(["Running current: 0.221 ± 0.010 A, k = 2.03, 101.9 degrees of freedom"], rows[0]);
        Assert.Equal(["current meter", "B", "normal", "0.004 A", "1", "0.004 A", "64.0 %"], rows[1]);
        Assert.Equal(["scatter from move to move", "A", "normal", "0.003 A", "1", "0.003 A", "36.0 %"], rows[2]);
    }

    [Fact]
    public void Write_Held_SaysWhatIsMissing()
    {
        string verdict = Page(SampleRun.Held()).QuerySelector(".verdict")!.TextContent;

        Assert.Contains("What is missing", verdict, StringComparison.Ordinal);
        Assert.Contains("about 23 more moves without a failure", verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_AbortedWithOutputsNotConfirmed_SaysWhyAndWarnsBeforeAnythingElseToDo()
    {
        IHtmlDocument page = Page(SampleRun.AbortedWithoutFeatures());
        string verdict = page.QuerySelector(".verdict")!.TextContent;

        Assert.Contains("an output could not be confirmed off", verdict, StringComparison.Ordinal);
        Assert.Contains("isolate the supply, then check the board", verdict, StringComparison.Ordinal);
        Assert.True(
            verdict.IndexOf("NOT confirmed off when the run ended", StringComparison.Ordinal) < verdict.IndexOf("What to do next", StringComparison.Ordinal));
        Assert.Equal(8, page.QuerySelectorAll(".omitted li").Length);
        Assert.All(page.QuerySelectorAll(".omitted li"), li => Assert.Contains("no plot, because", li.TextContent, StringComparison.Ordinal));
        Assert.Empty(page.QuerySelectorAll("figure"));
    }

    [Theory]
    [MemberData(nameof(Outcomes))]
    public void Write_AnyOutcome_NeedsNothingFromOutside(string outcome)
    {
        string html = Html(Sample(outcome));
        IHtmlDocument page = Parse(html);

        Assert.DoesNotContain("http://", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https://", html, StringComparison.OrdinalIgnoreCase);
        Assert.Empty(page.QuerySelectorAll("script, link, iframe, object, embed, img, image, use, base, form"));
        foreach (IAttr attribute in page.All.SelectMany(e => e.Attributes))
        {
            Assert.False(attribute.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase), attribute.Name);
            Assert.NotEqual("src", attribute.Name);
            Assert.True(attribute.LocalName != "href" || attribute.Value.StartsWith('#'), attribute.Value);
            Assert.True(!attribute.Value.Contains("url(", StringComparison.Ordinal) || attribute.Value.StartsWith("url(#", StringComparison.Ordinal), attribute.Value);
        }

        string style = page.QuerySelector("style")!.TextContent;
        Assert.DoesNotContain("@import", style, StringComparison.Ordinal);
        Assert.Equal(Occurrences(style, "url("), Occurrences(style, "url(data:font/woff2;base64,"));
    }

    [Theory]
    [MemberData(nameof(Outcomes))]
    public void Write_AnyOutcome_HasUniqueIdsAndLinksThatLead(string outcome)
    {
        IHtmlDocument page = Page(Sample(outcome));
        string[] ids = [.. page.QuerySelectorAll("[id]").Select(e => e.Id!)];

        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(page.QuerySelectorAll("a[href]"), a => Assert.Contains(a.GetAttribute("href")![1..], ids));
        foreach (string name in (string[])["aria-labelledby", "aria-describedby"])
        {
            Assert.All(page.QuerySelectorAll($"[{name}]"), e => Assert.Contains(e.GetAttribute(name), ids));
        }

        Assert.All(
            page.QuerySelectorAll("[clip-path]"),
            e => Assert.Contains(e.GetAttribute("clip-path")!["url(#".Length..^1], ids));
    }

    [Theory]
    [MemberData(nameof(Outcomes))]
    public void Write_AnyOutcome_IsSemanticHtml(string outcome)
    {
        IHtmlDocument page = Page(Sample(outcome));

        Assert.Equal("en", page.DocumentElement.GetAttribute("lang"));
        Assert.Single(page.QuerySelectorAll("h1"));
        Assert.Single(page.QuerySelectorAll("main"));
        Assert.All(page.QuerySelectorAll("table"), t => Assert.NotNull(t.QuerySelector("caption")));
        Assert.All(page.QuerySelectorAll("th"), th => Assert.True(th.GetAttribute("scope") is "row" or "col" or "rowgroup"));
        int level = 1;
        foreach (IElement heading in page.QuerySelectorAll("h1, h2, h3, h4"))
        {
            int own = heading.LocalName[1] - '0';
            Assert.True(own <= level + 1, $"'{heading.TextContent}' skips a level");
            level = own;
        }
    }

    [Theory]
    [InlineData("healthy")]
    [InlineData("dead-sensors")]
    [InlineData("held")]
    public void Write_WithPlots_EachIsAnImageWithItsNumbersInWords(string outcome)
    {
        IHtmlCollection<IElement> figures = Page(Sample(outcome)).QuerySelectorAll("figure");

        Assert.NotEmpty(figures);
        Assert.All(figures, figure =>
        {
            IElement svg = Assert.Single(figure.QuerySelectorAll("svg"));
            Assert.Equal("img", svg.GetAttribute("role"));
            Assert.Equal(figure.QuerySelector("figcaption")!.Id, svg.GetAttribute("aria-describedby"));
            Assert.Contains(figure.QuerySelector("figcaption")!.TextContent, char.IsAsciiDigit);
        });
    }

    [Theory]
    [MemberData(nameof(Outcomes))]
    public void Write_SameRunTwice_GivesTheSameText(string outcome) =>
        Assert.Equal(Html(Sample(outcome)), Html(Sample(outcome)));

    [Fact]
    public void Write_FromManyThreadsAtOnce_GivesTheSameText()
    {
        SampleRun run = SampleRun.Held();
        string alone = Html(run);
        string[] pages = new string[8];

        Parallel.For(0, pages.Length, i => pages[i] = Html(run));

        Assert.All(pages, page => Assert.Equal(alone, page));
    }

    [Fact]
    public void Write_LongestDemonstration_StaysSmallEnoughToMail() =>
        Assert.InRange(System.Text.Encoding.UTF8.GetByteCount(Html(SampleRun.DeadSensors(moves: 120))), 1, MostBytes);

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\"><img src=x onerror=alert(1)>")]
    [InlineData("' onmouseover='alert(1)")]
    [InlineData("</title></style><script>1</script>")]
    [InlineData("{{7*7}} ${7*7} &lt;b&gt; &amp;")]
    public void Write_HostileText_IsShownAsItIs(string hostile)
    {
        SampleRun run = Hostile(hostile);

        IHtmlDocument page = Page(run);

        Assert.Empty(page.QuerySelectorAll("script, img"));
        Assert.Single(page.QuerySelectorAll("style"));
        Assert.All(page.All.SelectMany(e => e.Attributes), a => Assert.False(a.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase), a.Name));
        Assert.Equal(hostile, page.QuerySelector("h1 bdi")!.TextContent);
        Assert.Contains(hostile, page.QuerySelector("#facts-unit")!.ParentElement!.TextContent, StringComparison.Ordinal);
        Assert.Contains(hostile, page.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_ControlAndOverrideCharacters_AreMadeVisible()
    {
        IHtmlDocument page = Page(Hostile("ND4\u0000\u001b[2J\u202E7142\uD800"));

        Assert.Equal("ND4\uFFFD\uFFFD[2J\uFFFD7142\uFFFD", page.QuerySelector("h1 bdi")!.TextContent);
    }

    [Fact]
    public void Write_SimulatedRun_SaysSoClearlyAndARealOneDoesNot()
    {
        Assert.Contains("SIMULATED", Page(SampleRun.Healthy()).QuerySelector("body > .simulated")!.TextContent, StringComparison.Ordinal);
        IHtmlDocument real = Page(SampleRun.Healthy().With(s => s with { Simulated = false }));
        Assert.Null(real.QuerySelector(".simulated"));
        Assert.DoesNotContain("SIMULATED", real.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_MeterPastItsDueDate_SaysByHowManyDays() =>
        Assert.Contains(
            "due 2026-04-30, ■ overdue by 4 days at the run",
            Page(SampleRun.Healthy()).QuerySelector("#facts-bench")!.ParentElement!.TextContent,
            StringComparison.Ordinal);

    [Fact]
    public void Write_AnyRun_PrintsAllCautionsHashesAndFindings()
    {
        SampleRun run = SampleRun.DeadSensors();

        IHtmlDocument page = Page(run);

        Assert.Equal(Cautions.All, page.QuerySelectorAll(".cautions li").Select(li => li.TextContent));
        string integrity = page.QuerySelector("#integrity")!.ParentElement!.TextContent;
        Assert.Contains(run.Run.Hash, integrity, StringComparison.Ordinal);
        Assert.Contains(run.Run.PreviousHash, integrity, StringComparison.Ordinal);
        Assert.Equal(
            run.Run.Record.Judgement!.Findings.Select(f => f.Statement),
            page.QuerySelectorAll(".finding .statement td").Select(td => td.TextContent.Replace(" plot", string.Empty, StringComparison.Ordinal)));
    }

    internal static string Html(SampleRun run)
    {
        using StringWriter output = new();
        EvidencePacket.Write(run.Run, run.Trace, output);
        return output.ToString();
    }

    internal static SampleRun Sample(string outcome) => outcome switch
    {
        "healthy" => SampleRun.Healthy(),
        "dead-sensors" => SampleRun.DeadSensors(),
        "held" => SampleRun.Held(),
        _ => SampleRun.AbortedWithoutFeatures(),
    };

    // Every place a person or a file can put text in.
    internal static SampleRun Hostile(string text)
    {
        SampleRun run = SampleRun.DeadSensors().With(s => s with
        {
            Software = text,
            SimulatedCondition = text,
            Return = s.Return with { Serial = text, PartNumber = text, ReturnNumber = text, FieldNote = text },
            Bench = s.Bench with { Name = text, Position = text, Current = s.Bench.Current with { Certificate = text } },
            Profile = s.Profile with
            {
                Family = text,
                Title = text,
                Author = text,
                Approval = text,
                Ports = [.. s.Profile.Ports.Select(p => p with { Name = p.Name + text })],
                Economics = s.Profile.Economics with { Currency = text },
            },
        });
        return run with
        {
            Run = run.Run with
            {
                TraceFile = text,
                Record = run.Run.Record with
                {
                    Events = [new(0, RunEventKind.Note, text)],
                    Judgement = run.Run.Record.Judgement! with
                    {
                        Reasons = [text],
                        NextStep = text,
                        Missing = [text],
                        Causes = [new(text, text, 1)],
                        Work = [new(text, text, 1, 1, 1)],
                    },
                },
            },
        };
    }

    private static int Occurrences(string text, string part) => text.Split(part).Length - 1;

    private static IHtmlDocument Page(SampleRun run) => Parse(Html(run));

    private static IDocument Page(IElement element) => element.Owner!;

    private static IHtmlDocument Parse(string html) => new HtmlParser().ParseDocument(html);
}
