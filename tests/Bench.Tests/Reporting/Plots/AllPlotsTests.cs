using System.Text.RegularExpressions;
using System.Xml.Linq;
using Bench.Model.Features;
using Bench.Reporting.Plots;

namespace Bench.Tests.Reporting.Plots;

public class AllPlotsTests
{
    private static readonly string[] Units = ["(counts)", "(count)", "(A)", "(V)", "(s)", "(1)", "(%)"];

    [Theory]
    [InlineData("position", "Move number", "Landing error (counts)")]
    [InlineData("index", "Move number", "Index from first pass (counts)")]
    [InlineData("current", "Time from drive on (s)", "Current (A)")]
    [InlineData("angle", "Count on the ring (count)", "Mean current (A)")]
    [InlineData("supply", "Time from start of run (s)", "Supply (V)")]
    [InlineData("demonstration", "Counted moves", "Log likelihood ratio (1)")]
    [InlineData("causes", "Probability (%)", null)]
    public void Draw_DeadSensors_LabelsBothAxesWithUnits(string id, string x, string? y)
    {
        string[] texts = Texts(Draw(SampleRun.DeadSensors()).First(f => f.Id == id));

        Assert.Contains(x, texts);
        Assert.True(y is null || texts.Contains(y), y);
        Assert.Contains(texts, t => Units.Any(u => t.EndsWith(u, StringComparison.Ordinal)));
    }

    [Fact]
    public void Draw_EveryPlot_IsSvgInOurFontWithoutReferencesOrForeignColours()
    {
        string[] allowed = ["#1C242B", "#5B6670", "#DDE2E6", "#005F8F", "#B23A00", "#E6F0F5", "none"];
        foreach (Figure figure in Draw(SampleRun.DeadSensors()))
        {
            XElement svg = XElement.Parse(figure.Svg!);
            Assert.Equal("svg", svg.Name);
            Assert.Equal("Bench Sans", svg.Attribute("font-family")!.Value);
            Assert.DoesNotContain("href", figure.Svg, StringComparison.Ordinal);
            // A colour the style sheet does not know would stay dark on dark.
            Assert.All(
                svg.Descendants().Attributes().Where(a => a.Name.LocalName is "fill" or "stroke"),
                a => Assert.Contains(a.Value, allowed));
            Assert.All(svg.Descendants("text"), t => Assert.NotNull(t.Attribute("fill")));
        }
    }

    [Fact]
    public void Draw_LimitsOfTheProfile_AreNamedInThePlots()
    {
        IReadOnlyList<Figure> figures = Draw(SampleRun.DeadSensors());

        Assert.Contains("limit 6 counts", Texts(figures.First(f => f.Id == "position")));
        Assert.Contains("limit −6 counts", Texts(figures.First(f => f.Id == "position")));
        Assert.Contains("limit of shift 4 counts", Texts(figures.First(f => f.Id == "index")));
        Assert.Contains("stall 2 A", Texts(figures.First(f => f.Id == "current")));
        Assert.Contains("greatest 28.8 V", Texts(figures.First(f => f.Id == "supply")));
        Assert.Contains("least 20.4 V", Texts(figures.First(f => f.Id == "supply")));
    }

    [Fact]
    public void Draw_NoIndexInput_SaysWhatCanNotBeSeen() =>
        Assert.Contains("no index input", Draw(SampleRun.Held()).First(f => f.Id == "index").OmittedBecause, StringComparison.Ordinal);

    [Fact]
    public void Draw_NoFeatures_OmitsEachPlotWithAReason()
    {
        IReadOnlyList<Figure> figures = Draw(SampleRun.AbortedWithoutFeatures());

        Assert.All(figures, f => Assert.Null(f.Svg));
        Assert.All(figures, f => Assert.False(string.IsNullOrWhiteSpace(f.OmittedBecause)));
    }

    [Fact]
    public void For_EveryFeature_NamesAPlotThatExists()
    {
        string[] ids = [.. Draw(SampleRun.Healthy()).Select(f => f.Id)];

        Assert.All(FeatureCatalog.All, f => Assert.Contains(AllPlots.For(f.Name), ids));
    }

    [Fact]
    public void Draw_DeadSensors_CountsMatchTheRingInWords()
    {
        Figure ring = Draw(SampleRun.DeadSensors()).First(f => f.Id == "ring");

        Assert.Contains("782 seen", ring.Caption, StringComparison.Ordinal);
        Assert.Contains("6 dead (317–322)", ring.Caption, StringComparison.Ordinal);
        Assert.Contains("10 weak (640–649)", ring.Caption, StringComparison.Ordinal);
        Assert.Contains("2 untested (12–13)", ring.Caption, StringComparison.Ordinal);
        Assert.Contains("dead", Texts(ring));
        Assert.Contains("317–322", Texts(ring));
    }

    [Fact]
    public void Draw_DeadArcAcrossCountZero_IsOneArc()
    {
        SampleRun run = SampleRun.Healthy();
        SensorState[] states = [.. Enumerable.Repeat(SensorState.Seen, 800)];
        states[799] = states[0] = states[1] = SensorState.Dead;
        RunFeatures features = run.Run.Record.Features!;

        Figure ring = RingPlot.Draw(run.Run.Record with { Features = features with { Ring = features.Ring with { States = states } } });

        Assert.Contains("3 dead (799–1)", ring.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_TraceOf120Moves_KeepsEachPlotSmall()
    {
        foreach (Figure figure in Draw(SampleRun.DeadSensors(moves: 120)))
        {
            Assert.InRange(figure.Svg!.Length, 500, 60_000);
        }
    }

    private static IReadOnlyList<Figure> Draw(SampleRun run) => AllPlots.Draw(run.Run.Record, run.Trace);

    private static string[] Texts(Figure figure) =>
        [.. XElement.Parse(figure.Svg!).Descendants("text").Select(t => Regex.Replace(t.Value, @"\s+", " "))];
}
