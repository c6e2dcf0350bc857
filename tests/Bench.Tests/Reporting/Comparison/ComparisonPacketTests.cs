using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Bench.Analysis.Comparing;
using Bench.Model.Comparisons;
using Bench.Reporting.Comparison;
using UglyToad.PdfPig;

namespace Bench.Tests.Reporting.Comparison;

/// <summary>The comparison as page, PDF and text.</summary>
public sealed class ComparisonPacketTests
{
    private static readonly RunComparison Worse = RunComparer.Compare(SampleRun.Healthy().Run, SampleRun.DeadSensors().Run);

    private static readonly RunComparison Elsewhere = RunComparer.Compare(
        SampleRun.Healthy().Run,
        SampleRun.Healthy().With(s => s with
        {
            Id = Guid.Parse("0198c0de-0000-7000-8000-000000000002"),
            Bench = s.Bench with { Name = "depot-3" },
            Profile = s.Profile with { Sha256 = new string('9', 64), Version = "2.0.0" },
        }).Run);

    [Fact]
    public void Write_WorseUnit_SaysOutcomeAndWhatWasFoundFirst()
    {
        IElement first = Page(Worse).QuerySelector("main")!.FirstElementChild!;
        Assert.Equal("WORSE", first.QuerySelector(".word")!.TextContent.Trim());
        Assert.NotNull(first.QuerySelector(".word svg"));
        string[] found = [.. first.QuerySelectorAll("ol.reasons > li").Select(li => li.TextContent)];
        Assert.Equal("A came out reusable, claim not-reproduced; B came out repairable, claim confirmed.", found[0]);
        Assert.Equal("6 sensors were seen in A and never in B: counts 317 to 322.", found[1]);
        Assert.Equal("10 sensors are seen too seldom in B, and were not in A: counts 640 to 649.", found[2]);
    }

    [Fact]
    public void Write_AnotherBenchAndProfile_SaysSoBeforeWhatWasFound()
    {
        IElement first = Page(Elsewhere).QuerySelector("main")!.FirstElementChild!;
        string[] conditions = [.. first.QuerySelectorAll("ul.reasons > li").Select(li => li.TextContent)];
        Assert.StartsWith("Profiles differ: version 1.2.0", conditions[0], StringComparison.Ordinal);
        Assert.StartsWith("Benches differ: A was run on depot-2, position left; B on depot-3", conditions[1], StringComparison.Ordinal);
        Assert.True(first.TextContent.IndexOf("First: what else differs", StringComparison.Ordinal) < first.TextContent.IndexOf("What was found", StringComparison.Ordinal));
        Assert.Contains("No meter is common", Page(Elsewhere).QuerySelector("[aria-labelledby=runs]")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_AnyComparison_HasARowForEveryFeatureThatBothHave()
    {
        IHtmlDocument page = Page(Worse);
        Assert.Equal(Worse.Features.Count(f => f.Value is not null), page.QuerySelectorAll("[aria-labelledby=differences] tbody th[scope=row]").Length);
        Assert.Equal(Worse.Features.Count(f => f.Value is null), page.QuerySelectorAll("[aria-labelledby=missing] li").Length);
    }

    [Fact]
    public void Write_RunsThatMoved_DrawsBothInOnePlotEach()
    {
        IHtmlDocument page = Page(Worse);
        Assert.Equal(["plot-compared-position", "plot-compared-angle"], page.QuerySelectorAll("figure").Select(f => f.Id!));
        Assert.All(page.QuerySelectorAll("figure figcaption"), c => Assert.True(c.TextContent.Contains("A, ", StringComparison.Ordinal) && c.TextContent.Contains("B, ", StringComparison.Ordinal)));
    }

    [Fact]
    public void Write_AbortedRun_SaysWhyThereIsNothingToCompare()
    {
        IHtmlDocument page = Page(RunComparer.Compare(SampleRun.Healthy().Run, SampleRun.AbortedWithoutFeatures().Run));
        Assert.Equal("NOT ASSESSABLE", page.QuerySelector(".word")!.TextContent.Trim());
        Assert.Equal(2, page.QuerySelectorAll("#plots ~ .omitted li").Length);
        Assert.Empty(page.QuerySelectorAll("figure"));
    }

    [Fact]
    public void Write_Always_NeedsNothingElse()
    {
        IHtmlDocument page = Page(Worse);
        Assert.Empty(page.QuerySelectorAll("script, link, img, iframe"));
        Assert.All(page.QuerySelectorAll("a[href]"), a => Assert.StartsWith("#", a.GetAttribute("href"), StringComparison.Ordinal));
        Assert.Equal(Html(Worse), Html(Worse));
    }

    [Fact]
    public void WritePdf_AnyComparison_SaysWhatThePageSays()
    {
        using MemoryStream file = new();
        ComparisonPacket.WritePdf(Worse, file);
        using PdfDocument pdf = PdfDocument.Open(file.ToArray());
        string text = string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        Assert.Contains("WORSE", text, StringComparison.Ordinal);
        Assert.Contains("6 sensors were seen in A and never in B", text, StringComparison.Ordinal);
        Assert.Contains("page 1 of", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(160)]
    public void Text_AnyWidth_HoldsSentencesAndFeaturesWithinIt(int width)
    {
        string text = ComparisonText.Write(Worse, width);
        Assert.StartsWith("result  ▼ WORSE", text, StringComparison.Ordinal);
        Assert.Contains("Running current", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= width, line));
        Assert.DoesNotContain('\u00A0', text);
    }

    private static string Html(RunComparison comparison)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        ComparisonPacket.Write(comparison, writer);
        return writer.ToString();
    }

    private static IHtmlDocument Page(RunComparison comparison) => new HtmlParser().ParseDocument(Html(comparison));
}
