using System.Globalization;
using Bench.Analysis.Ripple;
using Bench.Analysis.Sequential;
using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using Bench.Analysis.Uncertainty;

namespace Bench.Campaigns.Checks;

/// <summary>What SciPy is asked, on data drawn from a seed.</summary>
internal static class SciPyChecks
{
    /// <summary>The checks.</summary>
    public static List<LiveCheck> All(int seed)
    {
        Random random = new(seed);
        List<LiveCheck> checks = [];
        for (int i = 0; i < 12; i++)
        {
            Slopes(checks, random);
            Directions(checks, random);
            Tests(checks, random);
            Counts(checks, random);
            Spectra(checks, random);
        }

        foreach (double x in new[] { 0.3, 0.6, 0.999999, 1.0, 1.000001, 1.36, 2, 3.5 })
        {
            checks.Add(new("Kolmogorov tail", Text($"{x}"), Text($"special.kolmogorov({x})"), Kolmogorov.Tail(x), 9));
        }

        foreach ((double h, double shift) in new[] { (3.0, 0.0), (4, 0.25), (4, 1), (5, 0), (5, 2) })
        {
            checks.Add(new("CUSUM run length, one side", Text($"k 0.5, h {h}, shift {shift}"), Text($"arl(0.5, {h}, {shift})"), CusumRunLength.OneSided(0.5, h, shift), 5));
        }

        return checks;
    }

    private static void Slopes(List<LiveCheck> checks, Random random)
    {
        double[] x = [.. Enumerable.Range(0, random.Next(6, 40)).Select(i => (double)i)];
        double[] y = [.. x.Select(v => Math.Round((0.1 * v) + (3 * random.NextDouble()), 2))];
        TheilSen slope = TheilSen.Of(x, y);
        string asked = $"stats.theilslopes({Vector(y)}, {Vector(x)}, 0.95)";
        checks.Add(new("Theil-Sen slope", $"{x.Length} points", asked + "[0]", slope.Slope, 11));
        checks.Add(new("Theil-Sen 95 %, lower", $"{x.Length} points", asked + "[2]", slope.Lower, 11));
        checks.Add(new("Theil-Sen 95 %, upper", $"{x.Length} points", asked + "[3]", slope.Upper, 11));
    }

    private static void Directions(List<LiveCheck> checks, Random random)
    {
        int n = random.Next(10, 30);
        double spread = 50 + (500 * random.NextDouble());
        double[] counts = [.. Enumerable.Range(0, n).Select(_ => Math.Floor(800 + (spread * random.NextDouble())) % 800)];
        CircularStatistics ring = CircularStatistics.Of(counts, 800);
        string at = $"{n} counts on 800";
        checks.Add(new("circular mean", at, $"stats.circmean({Vector(counts)}, 800)", ring.Mean!.Value, 9));
        checks.Add(new("circular variance", at, $"stats.circvar({Vector(counts)}, 800)", ring.Variance, 9));
        checks.Add(new("circular deviation", at, $"stats.circstd({Vector(counts)}, 800)", ring.Deviation!.Value, 9));
        double exact = Math.Sqrt(n) * (0.5 + (1.2 * random.NextDouble()));
        checks.Add(new(
            "Rayleigh p", Text($"n {n}, R {exact:0.00}, against the exact integral"), Text($"kluyver({n}, {exact})"), new CircularStatistics(n, 360, exact / n, 0).RayleighProbability, 2));
    }

    private static void Tests(List<LiveCheck> checks, Random random)
    {
        double p0 = 0.002 + (0.02 * random.NextDouble()), p1 = p0 * (3 + (8 * random.NextDouble())), share = random.NextDouble() * p1 * 1.5;
        int most = random.Next(20, 300);
        OperatingCharacteristic test = OperatingCharacteristic.At(SequentialChecks.Plan(p0, p1, 0.05, 0.1, most), share);
        string at = Text($"{p0:0.000}/{p1:0.000}, {most} moves, share {share:0.000}");
        string asked = Text($"sequential({p0}, {p1}, 0.05, 0.1, {most}, {share})");
        checks.Add(new("operating characteristic, shown", at, asked + "[0]", test.Shown, 9));
        checks.Add(new("operating characteristic, refuted", at, asked + "[1]", test.Refuted, 9));
        checks.Add(new("operating characteristic, moves", at, asked + "[2]", test.ExpectedMoves, 9));

        double u = 0.05 + (0.5 * random.NextDouble()), limit = 1.5 + random.NextDouble(), guard = 2 * u * random.NextDouble();
        checks.Add(new(
            "consumer's risk", Text($"limit {limit:0.00}, u {u:0.00}, guard {guard:0.00}"), Text($"consumer(0, 1, {u}, {limit}, {guard})"), GlobalRisk.Of(0, 1, u, -limit, limit, guard).Consumer, 8));
    }

    private static void Counts(List<LiveCheck> checks, Random random)
    {
        int n1 = random.Next(1, 400), n2 = random.Next(1, 400), k1 = random.Next(0, Math.Min(n1, 30)), k2 = random.Next(0, Math.Min(n2, 30));
        checks.Add(new("Fisher's exact test", $"{k1} of {n1}, {k2} of {n2}", $"stats.fisher_exact([[{k1}, {n1 - k1}], [{k2}, {n2 - k2}]])[1]", TwoSamples.Fisher(k1, n1, k2, n2), 9));
    }

    private static void Spectra(List<LiveCheck> checks, Random random)
    {
        double rate = Math.Round(500 + (5000 * random.NextDouble())), at = 0.1 + (0.3 * random.NextDouble());
        double[] values = [.. Enumerable.Range(0, random.Next(60, 140)).Select(i => Math.Round(0.22 + (0.01 * Math.Sin(2 * Math.PI * at * i)) + (0.005 * random.NextDouble()), 5))];
        double[] density = Spectrum.Density(values, rate);
        int k = random.Next(1, density.Length - 1);
        string asked = Text($"signal.periodogram({Vector(values)}, {rate}, 'hann')");
        checks.Add(new("power spectral density", Text($"{values.Length} values, bin {k}"), Text($"{asked}[1][{k}]"), density[k], 8));
        checks.Add(new("power spectral density, sum", $"{values.Length} values", $"sum({asked}[1])", density.Sum(), 9));
    }

    private static string Vector(double[] values) =>
        $"[{string.Join(", ", values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)))}]";

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
