using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
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

    // JCGM 106:2012, 8.3: the guard band lies inside the limit and is as wide as U. Limits at ±6, dashed, give the scale.
    [Fact]
    public void Draw_GuardedLimit_HatchesABandAsWideAsUInsideIt()
    {
        Figure figure = Draw(SampleRun.DeadSensors()).First(f => f.Id == "position");
        XElement[] paths = [.. XElement.Parse(figure.Svg!).Descendants("path")];
        double[] limits = [.. paths.Where(p => p.Attribute("fill")?.Value == "#B23A00").Select(p => Heights(p)).Select(h => (h.Min() + h.Max()) / 2).Order()];
        double[][] bands = [.. paths.Where(p => p.Attribute("stroke-width")?.Value == "0.75").Select(Heights).OrderBy(h => h[0])];

        Assert.Contains("hatched: guard band, U = 0.70 counts", Texts(figure));
        Assert.Contains("in which a mean is undecided", figure.Caption, StringComparison.Ordinal);
        double perCount = (limits[1] - limits[0]) / 12;
        Assert.Equal(2, bands.Length);
        Assert.Equal(limits[0], bands[0].Min(), 0.1);
        Assert.Equal(limits[0] + (0.7 * perCount), bands[0].Max(), 0.1);
        Assert.Equal(limits[1], bands[1].Max(), 0.1);
        Assert.Equal(limits[1] - (0.7 * perCount), bands[1].Min(), 0.1);
    }

    [Fact]
    public void Draw_NothingHeldAgainstAGuardedLimit_HatchesNothing()
    {
        SampleRun run = SampleRun.DeadSensors();
        RunRecord record = run.Run.Record;

        Figure figure = PositionErrorPlot.Draw(record with { Judgement = record.Judgement! with { Findings = [] } });

        Assert.DoesNotContain(Texts(figure), t => t.StartsWith("hatched", StringComparison.Ordinal));
        Assert.DoesNotContain("Hatched", figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_Drift_NamesItsSlopeAndInterval()
    {
        Figure figure = Draw(SampleRun.DeadSensors()).First(f => f.Id == "index");

        Assert.Contains("drift +1.2 counts in 100 moves", Texts(figure));
        Assert.Contains("shaded: 95 %, −0.4 to +3.0", Texts(figure));
        Assert.Contains("drift of +1.2 counts in 100 moves, steps taken out (Theil-Sen); shaded: its 95 % interval, −0.4 to +3.0", figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_RecordWithoutDrift_SaysThatNoneIsDrawn()
    {
        RunRecord record = SampleRun.DeadSensors().Run.Record;

        Figure figure = IndexDriftPlot.Draw(record with { Features = record.Features! with { ShaftDrift = null } });

        Assert.Contains("No drift is drawn", figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_IndexStepped_DrawsNoLineThroughTheSteps()
    {
        RunRecord record = SampleRun.DeadSensors().Run.Record;
        Finding step = record.Judgement!.Findings[0] with { Feature = Feature.Of("index.step_counts", 370, 1, 23), Decision = FindingDecision.DoesNotConform };

        Figure figure = IndexDriftPlot.Draw(record with { Judgement = record.Judgement with { Findings = [step] } });

        Assert.DoesNotContain(Texts(figure), t => t.StartsWith("drift", StringComparison.Ordinal));
        Assert.Contains("No drift is drawn, for the index stepped", figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_OneLandingFarOff_KeepsTheScaleAndTellsItsNumber()
    {
        RunRecord record = SampleRun.Healthy().Run.Record;
        MoveFeatures[] moves = [.. record.Features!.Moves];
        moves[20] = moves[20] with { LandingErrorCounts = 57.25 };

        Figure figure = PositionErrorPlot.Draw(record with { Features = record.Features with { Moves = moves } });

        Assert.DoesNotContain("40", Texts(figure));
        Assert.Contains(FormattableString.Invariant($"the total of move {moves[20].Number}, 57.2"), figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_Ring_ExplainsEachStateBelowTheDial()
    {
        string[] texts = Texts(Draw(SampleRun.Healthy()).First(f => f.Id == "ring"));

        Assert.Equal(["seen", "untested", "weak", "dead"], texts[^4..]);
    }

    // Legible at a phone's 360 px, where a plot of 480 is drawn 320 wide: 14 px become 9.3.
    [Fact]
    public void Draw_EveryPlot_HasTheSameWidthAndTextSizes()
    {
        foreach (Figure figure in Draw(SampleRun.DeadSensors()))
        {
            XElement svg = XElement.Parse(figure.Svg!);
            Assert.StartsWith("0 0 480 ", svg.Attribute("viewBox")!.Value, StringComparison.Ordinal);
            Assert.All(svg.Descendants("text"), t => Assert.Contains(t.Attribute("font-size")!.Value, (string[])["14", "15"]));
        }
    }

    [Fact]
    public void Draw_HealthyUnitsKnown_ShadesTheirBandAndSaysHowManyAndWhen()
    {
        RunRecord record = SampleRun.Healthy().Run.Record;

        Figure figure = AngleCurrentPlot.Draw(record, Reference(record, units: 23));

        Assert.Contains("shaded: 23 healthy units", Texts(figure));
        Assert.Contains("#E6F0F5", figure.Svg, StringComparison.Ordinal);
        Assert.Contains(
            "Shaded: where about 83 % of healthy units lie, from 23 healthy units judged reusable by this profile, tested 2026-02-03 to 2026-04-30; it is no limit. Of 100 places 8 lie above it, 0 below.",
            figure.Caption, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_TooFewHealthyUnits_DrawsNoBandAndSaysSo()
    {
        RunRecord record = SampleRun.Healthy().Run.Record;

        Figure figure = AngleCurrentPlot.Draw(record, Reference(record, units: 3) with { Bins = [] });

        Assert.DoesNotContain("#E6F0F5", figure.Svg, StringComparison.Ordinal);
        Assert.Contains("the store has 3 judged reusable by this profile, and it takes 10", figure.Caption, StringComparison.Ordinal);
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

    private static CurrentReference Reference(RunRecord record, int units) => new()
    {
        Units = units,
        LeastUnits = 10,
        Share = 20.0 / 24,
        From = new DateTimeOffset(2026, 2, 3, 8, 0, 0, TimeSpan.Zero),
        To = new DateTimeOffset(2026, 4, 30, 8, 0, 0, TimeSpan.Zero),
        Bins = [.. record.Features!.Current.MeanA.Select(_ => (CurrentRange?)new CurrentRange(0.19, 0.24))],
    };

    // The y of each point of a path of straight lines, in CSS pixels of the sheet.
    private static double[] Heights(XElement path) =>
    [
        .. Regex.Matches(path.Attribute("d")!.Value, @"(-?[\d.]+)[ ,](-?[\d.]+)")
            .Select(m => double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture)),
    ];

    private static string[] Texts(Figure figure) =>
        [.. XElement.Parse(figure.Svg!).Descendants("text").Select(t => Regex.Replace(t.Value, @"\s+", " "))];
}
