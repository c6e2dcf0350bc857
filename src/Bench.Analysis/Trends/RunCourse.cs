using Bench.Analysis.Statistics;
using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Trends;

/// <summary>What the values of a run's moves do over the run: keep their level, step, drift, or leave it for a while (C4).</summary>
/// <param name="Kind">What they do, at 1 % significance.</param>
/// <param name="Step">Size of the step or excursion, 0 where none is shown; null of a drift.</param>
/// <param name="StepUncertainty">Its standard uncertainty: where none is shown, half of what would have been shown with an even chance.</param>
/// <param name="FirstMove">Number of the first move after the step, or of the excursion; null otherwise.</param>
/// <param name="LastMove">Number of the excursion's last move; null otherwise.</param>
/// <param name="Slope">Change per move, signed; null of a step or excursion.</param>
/// <param name="SlopeUncertainty">Its standard uncertainty.</param>
/// <param name="Probability">p-value of the test that showed it; of a level, the smaller of step's and drift's.</param>
/// <param name="Points">Values compared.</param>
public sealed record RunCourse(
    CourseKind Kind, double? Step, double StepUncertainty, int? FirstMove, int? LastMove, double? Slope, double SlopeUncertainty,
    double Probability, int Points)
{
    /// <summary>Significance at which a course is called no level: one healthy course in a hundred, for each of three tests.</summary>
    public const double Alpha = 0.01;

    /// <summary>Least values: with fewer no step, however great, could be shown by ranks at <see cref="Alpha"/>.</summary>
    public const int Least = 16;

    /// <summary>
    /// A course at least so monotonic is a drift whatever depends on what: of random walks, where each value is made of the
    /// one before and nothing else, one in a hundred is (0.90 of 16 values, 0.86 of 100; simulated with NumPy).
    /// </summary>
    public const double MonotonicTau = 0.9;

    /// <summary>Share of the resolution below which values do not differ: far above rounding.</summary>
    private const double Equal = 1e-6;

    /// <summary>Least values of a group that count.</summary>
    public const int LeastInGroup = 3;

    /// <summary>The course, or why there is none.</summary>
    /// <param name="points">Values in order of time.</param>
    /// <param name="resolution">Least standard deviation of one value, above 0.</param>
    /// <param name="what">What the values are of, several.</param>
    public static (RunCourse? Course, string? Because) Of(IReadOnlyList<CoursePoint> points, double resolution, string what = "moves")
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(resolution);
        CoursePoint[] kept = [.. points.GroupBy(p => p.Group).Where(g => g.Count() >= LeastInGroup).SelectMany(g => g).OrderBy(p => p.Move)
            .Select(p => p with { Value = Kept(p.Value, resolution) })];
        if (kept.Length < Least)
        {
            return (null, $"{kept.Length} {what} can be compared; at least {Least} are needed");
        }

        double[] values = [.. Centred(kept, p => p.Value).Select(v => Kept(v, resolution))];
        if (values.All(v => v == 0))
        {
            return (null, "all values are equal, so there is no scatter to hold a change against");
        }

        if (GroupedTrend.Of(Groups(kept)) is not { } trend)
        {
            return (null, "all values are of one move");
        }

        // Step or drift: whichever leaves less over.
        Pettitt change = Pettitt.Of(values);
        double? size = SizeOfStep(kept, change.Before);
        double[] stepped = size is double d ? Centred(kept, p => p.Value - (p.Move >= kept[change.Before].Move ? d : 0)) : values;
        double[] sloped = Centred(kept, p => p.Value - (trend.Slope * p.Move));
        bool steps = Kept(stepped.Sum(Math.Abs) - sloped.Sum(Math.Abs), resolution) <= 0;
        double inflation = Dependence.Inflation(steps ? stepped : sloped);
        trend = GroupedTrend.Of(Groups(kept), inflation)!.Value;
        int groups = kept.DistinctBy(k => k.Group).Count();
        if (Math.Abs(trend.Tau) >= MonotonicTau && kept.Length >= Least * groups)
        {
            return (Drifted(kept, trend, Math.Min(Alpha, trend.ProbabilityAt(inflation)), resolution), null);
        }

        double p = Math.Min(change.ProbabilityAt(inflation), trend.ProbabilityAt(inflation));
        double spread = Math.Max(Spread(steps ? stepped : sloped, groups), resolution) * Math.Sqrt(inflation);
        if (p >= Alpha)
        {
            return Excursion(kept, values, groups, resolution) is { } excursion ? (excursion, null) : Level(kept, trend, inflation, p, spread, resolution);
        }

        return (steps, size) switch
        {
            (true, double step) => (Stepped(kept, change, step, p, spread), null),
            (true, _) => (null, $"it changed at move {kept[change.Before].Move}, and no port was reached alike before and after"),
            _ => (Drifted(kept, trend, p, resolution), null),
        };
    }

    // Values that are equal but for rounding are ties to the ranks, whoever's units or side they were counted in.
    private static double Kept(double value, double resolution) => Math.Round(value / (resolution * Equal)) * (resolution * Equal);

    private static RunCourse Stepped(CoursePoint[] kept, Pettitt change, double size, double p, double spread)
    {
        double u = Robust.MedianPenalty * spread * Math.Sqrt((1.0 / change.Before) + (1.0 / (kept.Length - change.Before)));
        return new RunCourse(CourseKind.Step, size, u, kept[change.Before].Move, null, null, 0, p, kept.Length);
    }

    private static RunCourse Drifted(CoursePoint[] kept, GroupedTrend trend, double p, double resolution) =>
        new(CourseKind.Drift, null, 0, null, null, trend.Slope, Uncertainty(kept, trend, resolution), p, kept.Length);

    // A step d half-way shifts U by n²/4 (2Φ(d/(s√2)) - 1) on average; solved for U at the limit of significance.
    private static (RunCourse? Course, string? Because) Level(
        CoursePoint[] kept, GroupedTrend trend, double inflation, double p, double spread, double resolution)
    {
        int n = kept.Length;
        double limit = Math.Sqrt(-Math.Log(Alpha / 2) / 2 * (Math.Pow(n, 3) + Math.Pow(n, 2)) * inflation / 3);
        double share = (1 + (4 * limit / ((double)n * n))) / 2;
        return share >= 1
            ? (null, $"neighbouring moves depend on each other so much that {n} of them could show no change")
            : (new RunCourse(
                CourseKind.Level, 0, spread / Math.Sqrt(inflation) * Math.Sqrt(2) * Normal.InvCDF(0, 1, share) / 2, null, null, trend.Slope,
                Uncertainty(kept, trend, resolution), p, n), null);
    }

    // Cumulative sums about the level, decided so high that a course that keeps its level reaches it once in 1/Alpha runs.
    // What was found is taken out to see the scatter and dependence of the rest, and must still stand against those.
    private static RunCourse? Excursion(CoursePoint[] kept, double[] values, int groups, double resolution)
    {
        int n = values.Length;
        double decision = CusumRunLength.DecisionFor(Cusum.Reference, n / Alpha);
        double spread = Math.Max(Spread(values, groups), resolution);
        if (Cusum.Of(values, 0, Cusum.Reference * spread, decision * spread).Rise() is not (int from, int to) || n - (to - from) < Least / 2)
        {
            return null;
        }

        double size = Robust.Median(values.AsSpan(from, to - from)) - Robust.Median([.. values[..from], .. values[to..]]);
        double[] rest = [.. values.Select((v, i) => i >= from && i < to ? v - size : v)];
        spread = Math.Max(Spread(rest, groups), resolution) * Math.Sqrt(Dependence.Inflation(rest));
        double u = Robust.MedianPenalty * spread * Math.Sqrt((1.0 / (to - from)) + (1.0 / (n - to + from)));
        return Cusum.Of(values, 0, Cusum.Reference * spread, decision * spread).FirstSignal is null
            ? null
            : new RunCourse(CourseKind.Excursion, size, u, kept[from].Move, kept[to - 1].Move, null, 0, Alpha, n);
    }

    private static IEnumerable<(double X, double Y)[]> Groups(CoursePoint[] kept) =>
        kept.GroupBy(p => p.Group).Select(g => g.Select(p => ((double)p.Move, p.Value)).ToArray());

    // Each about the median of its group.
    private static double[] Centred(CoursePoint[] kept, Func<CoursePoint, double> of)
    {
        Dictionary<string, double> medians = kept.GroupBy(p => p.Group).ToDictionary(g => g.Key, g => Robust.Median([.. g.Select(of)]), StringComparer.Ordinal);
        return [.. kept.Select(p => of(p) - medians[p.Group])];
    }

    // Median difference of all pairs of a group across the change (Hodges and Lehmann 1963); null where no group lies on both sides.
    private static double? SizeOfStep(CoursePoint[] kept, int before)
    {
        double[] differences = [.. kept.Skip(before).SelectMany(late => kept.Take(before).Where(p => p.Group == late.Group).Select(early => late.Value - early.Value))];
        return differences.Length == 0 ? null : Robust.Median(differences);
    }

    // Standard deviation of what is left over; each group's level and one of step or slope are taken from the data.
    private static double Spread(double[] residuals, int groups) =>
        Math.Sqrt(residuals.Sum(r => r * r) / (residuals.Length - groups - 1));

    // From the interval, but where most values tie and it has no width, of a line through values that are known to the resolution only.
    private static double Uncertainty(CoursePoint[] kept, GroupedTrend trend, double resolution)
    {
        double mean = kept.Average(k => k.Move);
        double least = resolution / Math.Sqrt(kept.Sum(k => (k.Move - mean) * (k.Move - mean)));
        return Math.Max((trend.Upper - trend.Lower) / (2 * 1.959963984540054), least);
    }
}
