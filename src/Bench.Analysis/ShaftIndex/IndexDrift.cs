using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;

namespace Bench.Analysis.ShaftIndex;

/// <summary>Slope of the index against the encoder over the run (Theil-Sen, C4).</summary>
internal static class IndexDrift
{
    private const string Name = "index.drift_counts_per_100_moves";

    /// <summary>Least passes for a slope.</summary>
    private const int LeastPasses = 8;

    /// <summary>A change between neighbours beyond so many standard deviations of both is a step, no drift.</summary>
    private const double StepDeviations = 5;

    // Two-sided 95 %.
    private const double NormalQuantile = 1.959963984540054;

    /// <summary>Its magnitude.</summary>
    public static Feature Magnitude(List<IndexPass[]> sides)
    {
        if (Of(sides) is not { } creep)
        {
            return Feature.Missing(Name, IndexFeatures.TooFew(LeastPasses));
        }

        Contribution of = creep.Scatters
            ? new("interval of the slope", EvaluationType.A, ErrorDistribution.Normal, 100 * creep.Uncertainty)
            : new("edges between samples", EvaluationType.B, ErrorDistribution.Rectangular, 100 * creep.Uncertainty);
        return MeasuredFeature.Of(Name, Math.Abs(100 * creep.Slope.Slope), [of with { FallsAsPower = TheilSen.FallsAsPower }], creep.Slope.Points);
    }

    /// <summary>The same as a line, with its sign; null where there are too few passes.</summary>
    public static TrendLine? Line(List<IndexPass> passes)
    {
        if (Of(IndexFeatures.Sides(passes)) is not { } creep)
        {
            return null;
        }

        TheilSen slope = creep.Slope;
        double half = NormalQuantile * creep.Uncertainty;
        return creep.Scatters
            ? new TrendLine(slope.Slope, slope.Lower, slope.Upper, creep.Move, creep.Value)
            : new TrendLine(slope.Slope, slope.Slope - half, slope.Slope + half, creep.Move, creep.Value);
    }

    /// <summary>Counts that the index creeps from one move to the next, with their standard uncertainty; none where there are too few passes.</summary>
    public static (double Counts, double Uncertainty) PerMove(List<IndexPass[]> sides) =>
        Of(sides) is { } creep ? (creep.Slope.Slope, creep.Uncertainty) : (0, 0);

    // Each direction about its own median, so that play is no drift; and without its steps, so that slip is none either.
    private static Creep? Of(List<IndexPass[]> sides)
    {
        List<double> moves = [];
        List<double> middles = [];
        List<double> levels = [];
        foreach (IndexPass[] side in sides.Where(s => s.Length >= LeastPasses / 2))
        {
            double[] own = IndexFeatures.Middles(side);
            double[] creeping = WithoutSteps(own, StepDeviations * Math.Sqrt(2) * IndexFeatures.Typical(side));
            double level = Robust.Median(creeping);
            moves.AddRange(side.Select(p => (double)p.Move));
            middles.AddRange(creeping.Select(m => m - level));
            levels.Add(Robust.Median(own));
        }

        if (moves.Count < LeastPasses || moves.Distinct().Count() < LeastPasses / 2)
        {
            return null;
        }

        TheilSen slope = TheilSen.Of([.. moves], [.. middles]);

        // Where most passes tie the interval has no width, and a pass is still known to its own uncertainty only.
        double mean = moves.Average();
        double least = sides.SelectMany(s => s).Min(p => p.Uncertainty) / Math.Sqrt(moves.Sum(m => (m - mean) * (m - mean)));
        double interval = (slope.Upper - slope.Lower) / (2 * NormalQuantile);
        return new Creep(slope, Math.Max(interval, least), interval > least, Robust.Median([.. moves]), levels.Average());
    }

    // The course with every change between neighbours that noise can't make taken out.
    private static double[] WithoutSteps(double[] middles, double least)
    {
        double[] rest = [.. middles];
        double taken = 0;
        for (int i = 1; i < middles.Length; i++)
        {
            double change = middles[i] - middles[i - 1];
            taken += Math.Abs(change) > least ? change : 0;
            rest[i] = middles[i] - taken;
        }

        return rest;
    }

    // The slope with its standard uncertainty, whether that is the scatter's, and the point the line goes through.
    private readonly record struct Creep(TheilSen Slope, double Uncertainty, bool Scatters, double Move, double Value);
}
