using Bench.Model.BenchFiles;
using Bench.Model.Runs;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

public class GaugeReaderTests
{
    private const string Gauge = """

        [[gauge]]
        feature = "landing.repeatability_counts"
        standard_uncertainty = 0.4
        found_on = 2026-03-10
        due_on = 2027-03-10
        study = "GS-4"
        """;

    [Fact]
    public void Read_Gauge_StandsInTheSnapshotOfEveryPosition()
    {
        BenchFile bench = BenchFileReader.Read(SmallBench.Text + Gauge, "b.toml");
        GaugeDescription gauge = Assert.Single(BenchSnapshot.Of(bench, bench.Positions[0]).Gauges);
        Assert.Equal(
            new GaugeDescription
            {
                Feature = "landing.repeatability_counts",
                StandardUncertainty = 0.4,
                FoundOn = new DateOnly(2026, 3, 10),
                DueOn = new DateOnly(2027, 3, 10),
                Study = "GS-4",
            },
            gauge);
        Assert.True(SchemaTests.BenchPasses(SmallBench.Text + Gauge));
    }

    [Fact]
    public void Read_GaugeOfAPosition_GoesBeforeThatOfAll()
    {
        BenchFile bench = BenchFileReader.Read(SmallBench.Text + Gauge + Gauge.Replace("0.4", "0.9\nposition = \"left\"", StringComparison.Ordinal), "b.toml");
        Assert.Equal(0.9, Assert.Single(BenchSnapshot.Of(bench, bench.Positions[0]).Gauges).StandardUncertainty);
    }

    [Theory]
    [InlineData("landing.repeatability_counts", "landing.repeatability_count", "gauge[1].feature: found the unknown feature landing.repeatability_count; did you mean 'landing.repeatability_counts'?")]
    [InlineData("landing.repeatability_counts", "ring.dead_counts", "gauge[1].feature: found \"ring.dead_counts\"; a measured feature is allowed: this one is counted, and a count has no uncertainty")]
    [InlineData("= 0.4", "= -0.4", "gauge[1].standard_uncertainty: found -0.4; a number above 0, at most 1000000, is allowed")]
    [InlineData("due_on = 2027-03-10", "due_on = 2026-03-10", "gauge[1].due_on: found 2026-03-10; a day after found_on is allowed")]
    [InlineData("study = \"GS-4\"", "", "gauge[1].study: found nothing; this key is required")]
    [InlineData("study = \"GS-4\"", "study = \"GS-4\"\nposition = \"lef\"", "gauge[1].position: found \"lef\"; there is no such position; did you mean 'left'?")]
    public void Read_OneThingWrong_SaysWhatAndWhatIsAllowed(string part, string by, string expected)
    {
        string text = SmallBench.Text + Gauge.Replace(part, by, StringComparison.Ordinal);
        Assert.Contains(expected, Assert.Single(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml"))), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_GaugeTwice_IsRefused() =>
        Assert.Contains(
            "gauge[2].feature: found \"landing.repeatability_counts\"; each feature of a position is allowed once",
            Assert.Single(Refusal.Messages(() => BenchFileReader.Read(SmallBench.Text + Gauge + Gauge, "b.toml"))),
            StringComparison.Ordinal);
}
