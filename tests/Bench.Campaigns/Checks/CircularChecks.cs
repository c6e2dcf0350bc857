using Bench.Analysis.Statistics;

namespace Bench.Campaigns.Checks;

/// <summary>Circular mean, resultant, deviation and Rayleigh's test.</summary>
internal static class CircularChecks
{
    private const string Libraries = "R circular 0.4.95; scipy 1.10.1 agrees";

    private static readonly double[] Striae =
    [
        23, 27, 53, 58, 64, 83, 85, 88, 93, 99, 100, 105, 113, 113, 114, 117, 121, 123, 125, 126, 126, 126, 127, 127, 128, 128,
        129, 132, 132, 132, 134, 135, 137, 144, 145, 145, 146, 153, 155, 155, 155, 157, 163, 165, 171, 172, 179, 181, 186, 190, 212,
    ];

    private static readonly (double[] Counts, double Mean, double Resultant, double Deviation)[] Rings =
    [
        ([990, 5, 10], 1.668801270776, 0.998574898574, 8.499880834797),
        ([995, 996, 0, 3, 4, 7], 0.833372338349, 0.999635408369, 4.298115363163),
        ([100, 200, 300], 200, 0.87267799625, 83.06260908620),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        CircularStatistics striae = CircularStatistics.Of(Striae, 360);
        const string davis = "Finland striae, 51";
        yield return new("circular resultant", davis, "Davis 1986, p. 316", 0.800, striae.Resultant, 3);
        yield return new("circular resultant", davis, Libraries, 0.800369387328, striae.Resultant, 11);
        yield return new("circular mean", davis, Libraries, 129.190274586, striae.Mean!.Value, 11);
        yield return new("circular variance", davis, Libraries, 0.199630612672, striae.Variance, 11);
        yield return new("circular deviation", davis, Libraries, 38.2366743644, striae.Deviation!.Value, 11);
        yield return new("Rayleigh p", davis, "Zar 1999, formula", 3.49073138039e-18, striae.RayleighProbability, 9);
        CircularStatistics turtles = CircularStatistics.Of([40, 303, 326, 285, 296, 314, 20, 308, 299, 296], 360);
        yield return new("circular mean", "turtles, 10", Libraries, 317.235319509, turtles.Mean!.Value, 11);
        yield return new("circular resultant", "turtles, 10", Libraries, 0.818649629674, turtles.Resultant, 11);
        yield return new("circular deviation", "turtles, 10", Libraries, 36.2460083554, turtles.Deviation!.Value, 11);
        foreach ((double[] counts, double mean, double resultant, double deviation) in Rings)
        {
            CircularStatistics ring = CircularStatistics.Of(counts, 1000);
            string at = $"ring of 1000: {string.Join(' ', counts)}";
            yield return new("circular mean", at, Libraries, mean, ring.Mean!.Value, 11);
            yield return new("circular resultant", at, Libraries, resultant, ring.Resultant, 11);
            yield return new("circular deviation", at, Libraries, deviation, ring.Deviation!.Value, 9);
        }
    }
}
