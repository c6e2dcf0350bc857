using Bench.Model.Features;

namespace Bench.Analysis.Positioning;

/// <summary>
/// What few runs leave open in the parameters of ISO 230-2 (C3): each is made of one or two sides' mean and deviation, and
/// of n runs the mean is uncertain by s/√n, the deviation by s/√(2(n - 1)), independently (JCGM 100, E.4.3, for normal
/// deviations). The sides that give the parameter are taken as known.
/// </summary>
internal static class PositioningUncertainty
{
    /// <summary>Of repeatability R: 2 s of both sides and their means' difference, or 4 s of one.</summary>
    public static IEnumerable<Contribution> OfRepeatability(PositioningStatistics all)
    {
        TargetStatistics target = all.Targets.MaxBy(t => t.Repeatability)!;
        double greatest = target.Repeatability!.Value;
        foreach (DirectionStatistics? side in new[] { target.Up, target.Down })
        {
            if (side is { } one && one.Repeatability == greatest)
            {
                return [Scatter(one, "scatter of landings", 0, 4)];
            }
        }

        return [Scatter(target.Up!.Value, "scatter of landings up", 1, 2), Scatter(target.Down!.Value, "scatter of landings down", 1, 2)];
    }

    /// <summary>Of accuracy A: mean and 2 s of the highest and of the lowest side.</summary>
    public static IEnumerable<Contribution> OfAccuracy(PositioningStatistics all)
    {
        DirectionStatistics highest = all.Sides().MaxBy(s => s.Highest);
        DirectionStatistics lowest = all.Sides().MinBy(s => s.Lowest);
        return highest == lowest
            ? [Scatter(highest, "scatter of landings", 0, 4)]
            : [Scatter(highest, "scatter of the highest landings", 1, 2), Scatter(lowest, "scatter of the lowest landings", 1, 2)];
    }

    /// <summary>Of a difference of two means: the coarsest of all, for it is not known beforehand which two are furthest apart.</summary>
    public static Contribution OfDifference(PositioningStatistics all) =>
        Scatter(all.Sides().MaxBy(s => s.Deviation * s.Deviation / s.Runs), "scatter of landings", 1, 0) with { Sensitivity = Math.Sqrt(2) };

    // Of ofMean · mean + ofDeviation · s of one side.
    private static Contribution Scatter(DirectionStatistics side, string source, double ofMean, double ofDeviation)
    {
        double freedom = side.Runs - 1;
        double factor = Math.Sqrt((ofMean * ofMean / side.Runs) + (ofDeviation * ofDeviation / (2 * freedom)));
        return new Contribution(source, EvaluationType.A, ErrorDistribution.Normal, factor * (side.Deviation ?? 0)) { DegreesOfFreedom = freedom };
    }
}
