using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
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

    /// <summary>Resolution of one count, rectangular.</summary>
    private const double Quantisation = 0.2886751345948129;

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile)
    {
        List<TargetStatistics> targets = [];
        string? missing = null;
        foreach (Port port in profile.Ports)
        {
            MoveFeatures[] landed = [.. run.Features.Where(m => m.ToPort == port.Name && m.UnitErrorCounts is not null)];
            yield return Error(port, landed);
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
        double repeatability = all.Repeatability!.Value;
        int runs = run.Features.Count(m => m.ToPort is not null && m.UnitErrorCounts is not null);
        double u = Math.Sqrt((Quantisation * Quantisation) + Square(repeatability / Math.Sqrt(2.0 * (all.FewestRuns - 1))));
        yield return Feature.Of("landing.repeatability_counts", repeatability, u, runs);
        yield return Feature.Of("landing.accuracy_counts", all.Accuracy!.Value, u, runs);
        if (profile.Names(Reversal))
        {
            yield return all.Reversal is double b
                ? Feature.Of(Reversal, b, Between(targets), runs)
                : Feature.Missing(Reversal, "the drive turns one way only");
        }

        if (profile.Names(Systematic))
        {
            yield return Feature.Of(Systematic, all.SystematicDeviation, Between(targets), runs);
        }
    }

    // Of a difference of two means: the coarsest of all, for it is not known beforehand which two are furthest apart.
    private static double Between(List<TargetStatistics> targets)
    {
        double mean = targets.SelectMany(t => new[] { t.Up, t.Down }).OfType<DirectionStatistics>().Max(s => Square(s.Deviation ?? 0) / s.Runs);
        return Math.Sqrt(2 * ((Quantisation * Quantisation) + mean));
    }

    private static Feature Error(Port port, MoveFeatures[] landed)
    {
        if (landed.Length < FewestLandings)
        {
            return Feature.Missing(
                "landing.error_counts",
                $"{landed.Length} moves landed there with a known coast; at least {FewestLandings} are needed",
                port.Name);
        }

        double[] errors = [.. landed.Select(m => m.UnitErrorCounts!.Value)];
        double single = landed.Max(m => m.UnitErrorUncertainty ?? 0);
        double scatter = errors.Length > 1 ? Math.Max(single, Describe.StandardDeviation(errors)) : single;
        double u = Math.Sqrt((Quantisation * Quantisation) + (scatter * scatter / errors.Length));
        return Feature.Of("landing.error_counts", Describe.Mean(errors), u, errors.Length, port.Name);
    }

    private static double[] Side(MoveFeatures[] landed, DriveDirection direction) =>
        [.. landed.Where(m => m.Direction == direction).Select(m => m.UnitErrorCounts!.Value)];

    private static double Square(double x) => x * x;
}
