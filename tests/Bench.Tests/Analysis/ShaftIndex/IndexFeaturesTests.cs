using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.ShaftIndex;

public class IndexFeaturesTests
{
    [Fact]
    public void Reversal_PlayOfSeven_IsMeasuredAndIsNoShift()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 9) { Lead = (_, d) => 3.5 * d }.WholeRoutine()).Features;

        Near(7, f.Of("index.reversal_counts"));
        Near(0, f.Of("index.shift_counts"));
        Near(0, f.Of("index.drift_counts_per_100_moves"));
    }

    // A closed loop lands on the reading: slip between encoder and shaft leaves landings clean.
    [Fact]
    public void StepAndShift_SlipOfTwelveHalfWay_ShowAtTheShaftOnly()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 7) { Lead = (m, _) => m > 40 ? 12 : 0 }.WholeRoutine()).Features;

        Near(12, f.Of("index.step_counts"));
        Near(12, f.Of("index.shift_counts"));
        Assert.All(Diverter.Profile.Ports, p => Assert.InRange(f.Value("landing.error_counts", p.Name), -1.5, 1.5));
        Assert.InRange(f.Value("count.jump_counts"), 0, 1.5);
    }

    [Fact]
    public void Drift_FifthOfACountPerMove_IsTwentyPerHundred()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 8) { Lead = (m, _) => 0.2 * m }.WholeRoutine()).Features;

        Near(20, f.Of("index.drift_counts_per_100_moves"));
        Assert.InRange(f.Value("index.step_counts"), 0, 7);
        Assert.InRange(f.Value("index.reversal_counts"), 0, 2);
    }

    // A window of passes spans twenty moves: what creeps by half a count a move is ten counts on there, and no slip.
    [Fact]
    public void Step_StrongDrift_IsNone()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 8) { Lead = (m, _) => 0.5 * m }.WholeRoutine()).Features;

        Near(50, f.Of("index.drift_counts_per_100_moves"));
        Assert.InRange(f.Value("index.step_counts"), 0, 4);
    }

    [Fact]
    public void Step_SlipOfTwelveBesideDrift_IsTheSlip()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 8) { Lead = (m, _) => (0.3 * m) + (m > 40 ? 12 : 0) }.WholeRoutine()).Features;

        Near(12, f.Of("index.step_counts"));
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(-0.2)]
    public void ShaftDrift_FifthOfACountPerMove_IsTheFeaturesLineWithSignAndInterval(double perMove)
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 8) { Lead = (m, _) => perMove * m }.WholeRoutine()).Features;

        TrendLine line = f.ShaftDrift!;
        double[] places = [.. f.Moves.SelectMany(m => m.IndexCounts)];
        Assert.Equal(f.Value("index.drift_counts_per_100_moves"), 100 * Math.Abs(line.PerMove), 1e-9);
        Assert.Equal(Math.Sign(places[^1] - places[0]), Math.Sign(line.PerMove));
        Assert.InRange(line.PerMove, line.Lower, line.Upper);
        Assert.InRange(0.2, Math.Min(Math.Abs(line.Lower), Math.Abs(line.Upper)), Math.Max(Math.Abs(line.Lower), Math.Abs(line.Upper)));
        Assert.InRange(line.Value, places.Min(), places.Max());
        Assert.InRange(line.Move, 1, f.Moves.Count);
    }

    [Fact]
    public void ShaftDrift_FewPasses_IsNotTold()
    {
        SyntheticUnit unit = new(Diverter.Profile, 8);
        unit.Go(StageKind.PortMoves, Diverter.Profile.Ports[2], 1, 0);

        Assert.Null(SyntheticRun.Extract(unit).Features.ShaftDrift);
    }

    [Fact]
    public void Step_OneNoisyPass_MakesNone()
    {
        RunFeatures f = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 12) { Lead = (m, _) => m == 30 ? 15 : 0 }.WholeRoutine()).Features;

        Assert.InRange(f.Value("index.step_counts"), 0, 4);
    }

    [Fact]
    public void All_BenchWithoutIndex_SayWhy()
    {
        SyntheticUnit unit = new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(0);
        Bench.Analysis.Extraction.RunExtraction extraction = new(Diverter.Profile, Diverter.Bench with { HasIndex = false });
        unit.Moves.ForEach(m => extraction.AddMove(unit.Trace, m));

        RunFeatures f = extraction.Complete(unit.Trace, SyntheticRun.Links(), SyntheticRun.Today);

        Assert.Equal("the bench has no index input wired", f.Of("index.step_counts").NotAssessableBecause);
    }

    // Within three standard uncertainties, so that the stated uncertainty is held to its word too.
    private static void Near(double truth, Feature feature) =>
        Assert.InRange(Math.Abs(feature.Value!.Value - truth), 0, 3 * feature.StandardUncertainty!.Value);
}
