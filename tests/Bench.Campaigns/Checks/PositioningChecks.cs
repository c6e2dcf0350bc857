using Bench.Analysis.Positioning;

namespace Bench.Campaigns.Checks;

/// <summary>ISO 230-2:2014 on a worked axis and on a ring.</summary>
internal static class PositioningChecks
{
    private const string Recomputed = "R 4.2.2, definitions of ISO 230-2";
    private const string Report = "acceptance report of an axis, 2021";

    // Means and deviations up and down at five targets of a linear axis, mm, from a public acceptance report of five runs.
    private static readonly PositioningStatistics Axis = new(
    [
        Target(0.002250, 0.0006694400645, 0.004202, 0.0009706286623),
        Target(0.000394, 0.0004644136088, -0.004170, 0.0003912160528),
        Target(0.002084, 0.0018755879078, -0.000854, 0.0008323641030),
        Target(-0.009020, 0.0009840477631, -0.007884, 0.0005376616036),
        Target(0.006032, 0.0005226566751, 0.006968, 0.0003076036411),
    ]);

    private static readonly double[][] RingUp =
        [[1, 0, 2, 1, 1], [2, 1, 1, 0, 1], [0, 1, -1, 0, 0], [-1, -2, -1, 0, -1], [1, 2, 1, 1, 0], [1, 0, 2, 1, 1], [-1, 0, -1, -2, -1], [1, 0, 1, 2, 1]];

    private static readonly double[][] RingDown =
        [[-2, -3, -1, -2, -2], [-2, -1, -2, -3, -2], [-3, -4, -3, -2, -3], [-4, -3, -4, -5, -4], [-2, -1, -2, -3, -2], [-2, -3, -2, -1, -2], [-4, -3, -4, -5, -4], [-2, -3, -2, -1, -2]];

    /// <summary>The checks. The report's own R (0.0075) and E (0.01485) are left out: it takes the greater of R up and R down, and a one-sided span, which the standard does not.</summary>
    public static IEnumerable<Check> All()
    {
        yield return new("reversal B", "axis", Report, 0.00456, Axis.Reversal!.Value, 3);
        yield return new("mean reversal", "axis", Recomputed, 0.0006956, Axis.MeanReversal!.Value, 10);
        yield return new("repeatability R up", "axis", Recomputed, 0.007502351631, Axis.Up!.Repeatability!.Value, 9);
        yield return new("repeatability R down", "axis", Recomputed, 0.003882514649, Axis.Down!.Repeatability!.Value, 9);
        yield return new("repeatability R", "axis", Recomputed, 0.008353904022, Axis.Repeatability!.Value, 9);
        yield return new("systematic deviation E up", "axis", Report, 0.01505, Axis.Up!.SystematicDeviation, 3.5);
        yield return new("systematic deviation E down", "axis", Report, 0.01485, Axis.Down!.SystematicDeviation, 3.5);
        yield return new("systematic deviation E", "axis", Recomputed, 0.015988, Axis.SystematicDeviation, 12);
        yield return new("mean deviation M", "axis", Report, 0.01495, Axis.MeanDeviation, 3.5);
        yield return new("accuracy A up", "axis", Recomputed, 0.018065408876, Axis.Up!.Accuracy!.Value, 9);
        yield return new("accuracy A down", "axis", Recomputed, 0.016542530489, Axis.Down!.Accuracy!.Value, 9);
        yield return new("accuracy A", "axis", Recomputed, 0.018571302808, Axis.Accuracy!.Value, 9);
        yield return new("accuracy A", "axis", Report, 0.01858, Axis.Accuracy!.Value, 3);

        PositioningStatistics ring = new([.. RingUp.Zip(RingDown, (u, d) => TargetStatistics.Of(u, d))]);
        yield return new("reversal B", "ring", Recomputed, 3, ring.Reversal!.Value, 14);
        yield return new("repeatability R", "ring", "3 + 2 √2", 3 + (2 * Math.Sqrt(2)), ring.Repeatability!.Value, 14);
        yield return new("repeatability R up", "ring", Recomputed, 2.828427125, ring.Up!.Repeatability!.Value, 9);
        yield return new("systematic deviation E", "ring", Recomputed, 5, ring.SystematicDeviation, 14);
        yield return new("systematic deviation E up", "ring", Recomputed, 2, ring.Up!.SystematicDeviation, 14);
        yield return new("mean deviation M", "ring", Recomputed, 2, ring.MeanDeviation, 14);
        yield return new("accuracy A up", "ring", Recomputed, 4.828427125, ring.Up!.Accuracy!.Value, 9);
        yield return new("accuracy A", "ring", Recomputed, 7.828427125, ring.Accuracy!.Value, 9);
    }

    private static TargetStatistics Target(double up, double upDeviation, double down, double downDeviation) =>
        new(new DirectionStatistics(up, upDeviation, 5), new DirectionStatistics(down, downDeviation, 5));
}
