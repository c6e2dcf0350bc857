using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Analysis.Positioning;

/// <summary>Landings at the ports, the bench's share left out (C3).</summary>
internal static class PositioningFeatures
{
    /// <summary>
    /// Least runs to a target from each side. ISO 230-2 asks for five (from memory); with three the deviation is
    /// uncertain by half of itself, and the feature's uncertainty says so.
    /// </summary>
    public const int LeastRuns = 3;

    /// <summary>Fewest landings at a port whose mean is judged: one alone says nothing of its own scatter.</summary>
    private const int FewestLandings = 3;

    private const string Reversal = "landing.reversal_counts";
    private const string Systematic = "landing.systematic_counts";

    private static readonly (string Name, bool Always)[] Whole =
        [("landing.repeatability_counts", true), ("landing.accuracy_counts", true), (Reversal, false), (Systematic, false)];

    /// <summary>Resolution of the port's own count.</summary>
    private static readonly Contribution Resolution =
        new("resolution of the count", EvaluationType.B, ErrorDistribution.Rectangular, Contributions.Resolution(1));

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile)
    {
        List<TargetStatistics> targets = [];
        string? missing = null;
        foreach (Port port in profile.Ports)
        {
            MoveFeatures[] landed = [.. run.Features.Where(m => m.ToPort == port.Name && m.UnitErrorCounts is not null)];
            yield return Error(port, landed, profile.Drive);
            double[] up = Side(landed, DriveDirection.Up);
            double[] down = Side(landed, DriveDirection.Down);
            int fewest = profile.CanReverse ? Math.Min(up.Length, down.Length) : up.Length;
            if (fewest < LeastRuns)
            {
                missing ??= $"port {port.Name} was reached {fewest} times from one side; at least {LeastRuns} are needed";
            }
            else
            {
                targets.Add(TargetStatistics.Of(up, down));
            }
        }

        if (missing is not null)
        {
            foreach (string name in Whole.Where(n => n.Always || profile.Names(n.Name)).Select(n => n.Name))
            {
                yield return Feature.Missing(name, missing);
            }

            yield break;
        }

        PositioningStatistics all = new(targets);
        int runs = run.Features.Count(m => m.ToPort is not null && m.UnitErrorCounts is not null);
        yield return MeasuredFeature.Of("landing.repeatability_counts", all.Repeatability!.Value, [Resolution, .. PositioningUncertainty.OfRepeatability(all)], runs);
        yield return MeasuredFeature.Of("landing.accuracy_counts", all.Accuracy!.Value, [Resolution, .. PositioningUncertainty.OfAccuracy(all)], runs);
        if (profile.Names(Reversal))
        {
            yield return all.Reversal is double b
                ? MeasuredFeature.Of(Reversal, b, Between(all), runs)
                : Feature.Missing(Reversal, "the drive turns one way only");
        }

        if (profile.Names(Systematic))
        {
            yield return MeasuredFeature.Of(Systematic, all.SystematicDeviation, Between(all), runs);
        }
    }

    private static IEnumerable<Contribution> Between(PositioningStatistics all) =>
        [Resolution with { Sensitivity = Math.Sqrt(2) }, PositioningUncertainty.OfDifference(all)];

    private static Feature Error(Port port, MoveFeatures[] landed, DriveKind drive)
    {
        if (landed.Length < FewestLandings)
        {
            return Feature.Missing(
                "landing.error_counts",
                $"{landed.Length} moves landed there with a known coast; at least {FewestLandings} are needed",
                port.Name);
        }

        double[] errors = [.. landed.Select(m => m.UnitErrorCounts!.Value)];
        double scatter = Describe.StandardDeviation(errors);
        MoveFeatures coarsest = landed.MaxBy(m => m.UnitErrorUncertainty ?? 0)!;

        // Landings that scatter by less than a single one is known to may all be off alike.
        IEnumerable<Contribution> budget = scatter > (coarsest.UnitErrorUncertainty ?? 0)
            ? [new("scatter of landings", EvaluationType.A, ErrorDistribution.Normal, scatter) { DegreesOfFreedom = errors.Length - 1 }]
            : drive == DriveKind.Commanded ? CommandedLanding.Budget
            : LandingShares.Budget(coarsest.SpeedCountsPerS ?? 0);
        double perOne = 1 / Math.Sqrt(errors.Length);
        return MeasuredFeature.Of(
            "landing.error_counts",
            Describe.Mean(errors),
            [Resolution, .. budget.Select(c => c with { Sensitivity = c.Sensitivity * perOne })],
            errors.Length,
            port.Name);
    }

    private static double[] Side(MoveFeatures[] landed, DriveDirection direction) =>
        [.. landed.Where(m => m.Direction == direction).Select(m => m.UnitErrorCounts!.Value)];
}
