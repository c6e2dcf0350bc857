using Bench.Analysis.Statistics;
using Bench.Model.BenchFiles;
using Bench.Model.Features;

namespace Bench.Analysis.Uncertainty;

/// <summary>The contributions that several features have.</summary>
public static class Contributions
{
    /// <summary>Variance of the sample standard deviation over that of the scaled median absolute deviation, normal data, many of them: so much is a robust deviation's degree of freedom worth (Huber 1981, from memory).</summary>
    private const double RobustEfficiency = 0.3675;

    /// <summary>A meter's own standard uncertainty, the same in every reading.</summary>
    /// <param name="meter">The meter.</param>
    /// <param name="name">Its name.</param>
    /// <param name="unit">Its unit; null where the feature's.</param>
    /// <param name="sensitivity">Change of the feature per change of the reading.</param>
    public static Contribution Of(MeterDescription meter, string name, string? unit = null, double sensitivity = 1)
    {
        ArgumentNullException.ThrowIfNull(meter);
        return new Contribution(name, EvaluationType.B, ErrorDistribution.Normal, meter.StandardUncertainty) { Unit = unit, Sensitivity = sensitivity };
    }

    /// <summary>Standard uncertainty of a step of a reading, rectangular: step/√12 (JCGM 100, F.2.2.1).</summary>
    public static double Resolution(double step) => Math.Abs(step) / Math.Sqrt(12);

    /// <summary>
    /// Median with what its scatter makes it uncertain by, √(π/2) s/√n, where s is the robust deviation but at least
    /// <paramref name="least"/>; of values that hardly differ it is the latter that speaks.
    /// </summary>
    /// <param name="values">At least one value, all finite.</param>
    /// <param name="scatter">Name of the scatter.</param>
    /// <param name="least">What a single value is uncertain by at least, same unit, not negative.</param>
    /// <param name="floor">Name of that.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static (double Median, Contribution Scatter) Median(ReadOnlySpan<double> values, string scatter, double least, string floor)
    {
        double deviation = Robust.Deviation(values);
        double perOne = Robust.MedianPenalty / Math.Sqrt(values.Length);
        return (Robust.Median(values), deviation > least
            ? new Contribution(scatter, EvaluationType.A, ErrorDistribution.Normal, perOne * deviation) { DegreesOfFreedom = Math.Max(1, RobustEfficiency * (values.Length - 1)) }
            : new Contribution(floor, EvaluationType.B, ErrorDistribution.Rectangular, perOne * least) { FallsAsPower = 0.5 });
    }

    /// <summary>A share of counted events, k of n.</summary>
    /// <param name="k">Events.</param>
    /// <param name="n">Trials.</param>
    public static Contribution Share(long k, long n) =>
        new("share of counted events", EvaluationType.A, ErrorDistribution.Beta, Shares.Uncertainty(k, n));
}
