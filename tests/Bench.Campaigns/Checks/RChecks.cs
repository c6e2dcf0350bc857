using System.Globalization;
using Bench.Analysis.Statistics;
using Bench.Analysis.Trends;
using MathNet.Numerics.Distributions;

namespace Bench.Campaigns.Checks;

/// <summary>What R is asked, on data drawn from a seed.</summary>
internal static class RChecks
{
    /// <summary>The checks.</summary>
    public static List<LiveCheck> All(int seed)
    {
        Random random = new(seed);
        List<LiveCheck> checks = [];
        for (int i = 0; i < 12; i++)
        {
            Shares(checks, random);
            TwoOfThem(checks, random);
            Series(checks, random);
            Lines(checks, random);
            ManyTests(checks, random);
        }

        // Nine digits of these: a quantile by root finding, and tails through log-gamma of a million, whose own size costs six.
        foreach ((int freedom, double p) in new[] { (1, 0.975), (2, 0.995), (5, 0.95), (30, 0.9999), (400, 0.975) })
        {
            checks.Add(new("Student's t", Text($"{p}, {freedom}"), Text($"qt({p}, {freedom})"), StudentT.InvCDF(0, 1, freedom, p), 9));
        }

        foreach ((int k, int n, double p) in new[] { (0, 5000, 0.2), (3, 2000, 0.3), (1, 1000000, 1e-5), (999, 1000, 0.999), (40, 10000, 0.02) })
        {
            checks.Add(new("binomial tail", Text($"{k} of {n}, p {p}"), Text($"pbinom({k}, {n}, {p})"), BinomialLimits.LowerTail(k, n, p), 9));
        }

        return checks;
    }

    private static void Shares(List<LiveCheck> checks, Random random)
    {
        int n = 1 << random.Next(2, 21);
        int k = (int)Math.Round(n * Math.Pow(random.NextDouble(), 4));
        double confidence = 1 - Math.Pow(10, -1 - (3 * random.NextDouble()));
        string at = Text($"{k} of {n}, {confidence:0.0000}");
        string exact = Text($"binom.test({k}, {n}, conf.level = {confidence})$conf.int");
        string score = Text($"prop.test({k}, {n}, conf.level = {confidence}, correct = FALSE)$conf.int");
        checks.Add(new("Clopper-Pearson, lower", at, exact + "[1]", BinomialLimits.Lower(k, n, (1 + confidence) / 2), 9));
        checks.Add(new("Clopper-Pearson, upper", at, exact + "[2]", BinomialLimits.Upper(k, n, (1 + confidence) / 2), 9));
        checks.Add(new("Wilson, lower", at, score + "[1]", Wilson.Interval(k, n, confidence).Lower, 9));
        checks.Add(new("Wilson, upper", at, score + "[2]", Wilson.Interval(k, n, confidence).Upper, 9));
    }

    private static void TwoOfThem(List<LiveCheck> checks, Random random)
    {
        int n1 = random.Next(1, 400), n2 = random.Next(1, 400), k1 = random.Next(0, Math.Min(n1, 30)), k2 = random.Next(0, Math.Min(n2, 30));
        checks.Add(new("Fisher's exact test", $"{k1} of {n1}, {k2} of {n2}", $"fisher.test(matrix(c({k1}, {n1 - k1}, {k2}, {n2 - k2}), 2))$p.value", TwoSamples.Fisher(k1, n1, k2, n2), 9));
        checks.Add(new("two rates", $"{k1} in {n1}, {k2} in {n2}", $"poisson.test(c({k1}, {k2}), c({n1}, {n2}))$p.value", TwoSamples.Rates(k1, n1, k2, n2), 9));
        double ratio = 4 * (random.NextDouble() - 0.5), freedom = 1 + (30 * random.NextDouble());
        checks.Add(new("Student's two-sided p", Text($"t {ratio:0.00}, {freedom:0.0}"), Text($"2 * pt(-abs({ratio}), {freedom})"), TwoSamples.Student(ratio, freedom), 9));
    }

    // Rounded to tenths about a wandering level, so that there are ties and changes.
    private static void Series(List<LiveCheck> checks, Random random)
    {
        double[] x = new double[random.Next(5, 60)];
        double level = 0;
        for (int i = 0; i < x.Length; i++)
        {
            level += random.NextDouble() < 0.05 ? random.NextDouble() - 0.5 : 0;
            x[i] = Math.Round(level + random.NextDouble(), 1);
        }

        if (x.Distinct().Count() < 3)
        {
            return;
        }

        string at = $"{x.Length} values";
        string c = Vector(x);
        checks.Add(new("autocorrelation lag 1", at, $"acf({c}, plot = FALSE)$acf[2]", Describe.Autocorrelation(x)!.Value, 9));
        checks.Add(new("median", at, $"median({c})", Robust.Median(x), 12));
        checks.Add(new("MAD x 1.4826", at, $"mad({c}, constant = 1 / qnorm(0.75))", Robust.Deviation(x), 12));
        checks.Add(new("Mann-Kendall Z", at, $"cor.test(1:{x.Length}, {c}, method = \"kendall\", exact = FALSE, continuity = TRUE)$statistic", MannKendall.Of(x).Z, 9));
        checks.Add(new("Pettitt K", at, $"{{ x <- {c}; n <- length(x); max(abs(2 * cumsum(rank(x)) - (1:n) * (n + 1))[-n]) }}", Pettitt.Of(x).K, 12));
        checks.Add(new("Pettitt, values before", at, $"{{ x <- {c}; n <- length(x); which.max(abs(2 * cumsum(rank(x)) - (1:n) * (n + 1))[-n]) }}", Pettitt.Of(x).Before, 15));
    }

    private static void Lines(List<LiveCheck> checks, Random random)
    {
        int n = random.Next(4, 30);
        double[] a = [.. Enumerable.Range(0, n).Select(_ => random.NextDouble())];
        double[] b = [.. Enumerable.Range(0, n).Select(_ => 100 + random.NextDouble())];
        double[] y = [.. a.Zip(b, (p, q) => (3 * p) - (0.2 * q) + random.NextDouble())];
        LinearFit fit = LinearFit.Of([a, b], y)!;
        string model = $"lm({Vector(y)} ~ 0 + {Vector(a)} + {Vector(b)})";
        for (int j = 0; j < 2; j++)
        {
            checks.Add(new("least squares, coefficient", $"{n} points", $"coef({model})[{j + 1}]", fit.Coefficients[j], 9));
            checks.Add(new("least squares, standard error", $"{n} points", $"coef(summary({model}))[{j + 1}, 2]", fit.StandardErrors[j], 9));
            checks.Add(new("least squares, half of 95 %", $"{n} points", $"diff(confint({model})[{j + 1}, ]) / 2", fit.HalfWidth(j, 0.95), 9));
        }
    }

    private static void ManyTests(List<LiveCheck> checks, Random random)
    {
        double[] p = [.. Enumerable.Range(0, random.Next(2, 40)).Select(_ => Math.Pow(random.NextDouble(), 3))];
        int at = random.Next(p.Length);
        checks.Add(new("Holm, adjusted", $"{p.Length} tests", $"p.adjust({Vector(p)}, \"holm\")[{at + 1}]", Holm.Adjusted(p)[at], 12));
    }

    private static string Vector(double[] values) =>
        $"c({string.Join(", ", values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)))})";

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
