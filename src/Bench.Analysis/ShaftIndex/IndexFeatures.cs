using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.ShaftIndex;

/// <summary>The shaft's index against the encoder: play, shift, step and drift (C4, C6). All four are magnitudes.</summary>
internal static class IndexFeatures
{
    /// <summary>Least passes in one direction for a shift or step.</summary>
    private const int LeastPasses = 6;

    /// <summary>Least pairs of passes in opposite directions, of each order.</summary>
    private const int LeastPairs = 2;

    /// <summary>Passes on each side of a step whose medians are compared; so one noisy pass makes none.</summary>
    private const int StepWindow = 5;

    private const int LeastStepWindow = 3;

    private static readonly string[] Names =
        ["index.reversal_counts", "index.shift_counts", "index.step_counts", "index.drift_counts_per_100_moves"];

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(List<IndexPass> passes, Profile profile, BenchSnapshot bench)
    {
        string? because = profile.IndexWidthCounts is null ? "this family has no index"
            : !bench.HasIndex ? "the bench has no index input wired"
            : passes.Count == 0 ? "the index was never passed in steady motion"
            : null;
        if (because is not null)
        {
            return Names.Select(n => Feature.Missing(n, because));
        }

        List<IndexPass[]> sides = Sides(passes);
        return [Reversal(passes, profile), Shift(sides), Step(sides), IndexDrift.Magnitude(sides)];
    }

    /// <summary>Passes by direction of travel.</summary>
    public static List<IndexPass[]> Sides(List<IndexPass> passes) =>
    [
        [.. passes.Where(p => p.Direction == DriveDirection.Up)],
        [.. passes.Where(p => p.Direction == DriveDirection.Down)],
    ];

    // Pairs of neighbours in time, up minus down. In pairs up-down drift counts one way, in pairs down-up the other:
    // the mean of both medians is free of it.
    private static Feature Reversal(List<IndexPass> passes, Profile profile)
    {
        if (!profile.CanReverse)
        {
            return Feature.Missing("index.reversal_counts", "the drive turns one way only");
        }

        List<double> upFirst = [];
        List<double> downFirst = [];
        for (int i = 1; i < passes.Count; i++)
        {
            if (passes[i].Direction != passes[i - 1].Direction)
            {
                bool wasUp = passes[i - 1].Direction == DriveDirection.Up;
                double difference = passes[i - 1].Middle - passes[i].Middle;
                (wasUp ? upFirst : downFirst).Add(wasUp ? difference : -difference);
            }
        }

        if (Math.Min(upFirst.Count, downFirst.Count) < LeastPairs)
        {
            return Feature.Missing("index.reversal_counts", "the index was passed too seldom in both directions");
        }

        double least = Typical(passes) * Math.Sqrt(2);
        (double a, Contribution ofA) = Contributions.Median([.. upFirst], "scatter of pairs up, then down", least, "edges in pairs up, then down, between samples");
        (double b, Contribution ofB) = Contributions.Median([.. downFirst], "scatter of pairs down, then up", least, "edges in pairs down, then up, between samples");
        return MeasuredFeature.Of(
            "index.reversal_counts", Math.Abs(a + b) / 2, [ofA with { Sensitivity = 0.5 }, ofB with { Sensitivity = 0.5 }], upFirst.Count + downFirst.Count);
    }

    private static Feature Shift(List<IndexPass[]> sides)
    {
        double sum = 0;
        int used = 0, observations = 0;
        List<Contribution> budget = [];
        foreach (IndexPass[] side in sides.Where(s => s.Length >= LeastPasses))
        {
            int third = side.Length / 3;
            double least = Typical(side);
            string way = side[0].Direction == DriveDirection.Up ? "up" : "down";
            (double first, Contribution ofFirst) = Contributions.Median(
                Middles(side.AsSpan(0, third)), $"scatter of first passes {way}", least, $"edges of first passes {way} between samples");
            (double last, Contribution ofLast) = Contributions.Median(
                Middles(side.AsSpan(side.Length - third)), $"scatter of last passes {way}", least, $"edges of last passes {way} between samples");
            sum += last - first;
            budget.AddRange([ofFirst, ofLast]);
            used++;
            observations += side.Length;
        }

        return used == 0
            ? Feature.Missing("index.shift_counts", TooFew(LeastPasses))
            : MeasuredFeature.Of("index.shift_counts", Math.Abs(sum / used), budget.Select(c => c with { Sensitivity = 1.0 / used }), observations);
    }

    // What creeps from move to move lies as far apart after ten moves as a slip, and is none: steps are sought beside the drift.
    private static Feature Step(List<IndexPass[]> sides)
    {
        (double creep, double creepUncertainty) = IndexDrift.PerMove(sides);
        double greatest = -1, u = 0, ofCreep = 0;
        int observations = 0;
        foreach (IndexPass[] side in sides.Where(s => s.Length >= LeastPasses))
        {
            double[] middles = [.. side.Select(p => p.Middle - (creep * p.Move))];
            double[] moves = [.. side.Select(p => (double)p.Move)];
            observations += side.Length;
            for (int i = LeastStepWindow; i <= middles.Length - LeastStepWindow; i++)
            {
                int before = Math.Min(StepWindow, i);
                int after = Math.Min(StepWindow, middles.Length - i);
                double step = Math.Abs(Robust.Median(middles.AsSpan(i, after)) - Robust.Median(middles.AsSpan(i - before, before)));
                if (step > greatest)
                {
                    greatest = step;
                    u = Robust.MedianPenalty * Typical(side) * Math.Sqrt((1.0 / before) + (1.0 / after));
                    ofCreep = creepUncertainty * (Robust.Median(moves.AsSpan(i, after)) - Robust.Median(moves.AsSpan(i - before, before)));
                }
            }
        }

        return greatest < 0
            ? Feature.Missing("index.step_counts", TooFew(LeastPasses))
            : MeasuredFeature.Of(
                "index.step_counts",
                greatest,
                [
                    new Contribution("edges between samples", EvaluationType.B, ErrorDistribution.Rectangular, u),
                    new Contribution("drift taken out", EvaluationType.A, ErrorDistribution.Normal, ofCreep) { FallsAsPower = TheilSen.FallsAsPower },
                ],
                observations);
    }

    /// <summary>Middle uncertainty of passes, counts.</summary>
    public static double Typical(IReadOnlyList<IndexPass> passes) => Robust.Median([.. passes.Select(p => p.Uncertainty)]);

    /// <summary>Middles of passes, counts.</summary>
    public static double[] Middles(ReadOnlySpan<IndexPass> passes)
    {
        double[] values = new double[passes.Length];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = passes[i].Middle;
        }

        return values;
    }

    /// <summary>Why there is no answer.</summary>
    public static string TooFew(int least) => $"the index was passed fewer than {least} times in one direction";
}
