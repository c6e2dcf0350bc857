using Bench.Analysis.Statistics;

namespace Bench.Campaigns.Checks;

/// <summary>Statements on a share from counted events, and binomial tails far out.</summary>
internal static class ShareChecks
{
    private const string ClopperPearson = "R 4.2.2 binom.test";
    private const string Score = "R 4.2.2 prop.test(correct = FALSE)";

    private static readonly (int K, int N, double Confidence, double Lower, double Upper)[] Exact =
    [
        (0, 10, 0.95, 0, 0.308497107819), (0, 22, 0.90, 0, 0.127305431655), (0, 59, 0.95, 0, 0.0606089009503),
        (1, 10, 0.95, 0.00252857854446, 0.445016117028), (4, 20, 0.90, 0.0713538843086, 0.401028117332),
        (3, 50, 0.95, 0.0125485878353, 0.165481946604), (5, 100, 0.95, 0.0164318791821, 0.112834911105),
        (10, 100, 0.95, 0.0490046892215, 0.17622259774), (12, 70, 0.95, 0.0918422074277, 0.280308410905),
        (22, 22, 0.95, 0.845627487184, 1), (263, 1000, 0.95, 0.23594352468, 0.291459361439),
    ];

    private static readonly (int K, int N, double Confidence, double Upper)[] OneSided =
    [
        (0, 22, 0.90, 0.0993719797887), (0, 59, 0.95, 0.0495076098882), (0, 299, 0.95, 0.0099691467929),
        (0, 459, 0.99, 0.00998288736613), (1, 38, 0.90, 0.0985467087816), (2, 77, 0.95, 0.0795123521278),
    ];

    private static readonly (int K, int N, double Confidence, double Lower, double Upper)[] Wilsons =
    [
        (4, 20, 0.90, 0.0931180165812, 0.378376685835), (3, 50, 0.95, 0.020614970349, 0.162170916888),
        (10, 100, 0.95, 0.0552291370607, 0.174365661505), (0, 10, 0.95, 0, 0.277532799863),
        (263, 1000, 0.95, 0.236656859791, 0.291157023731),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        foreach (var (k, n, confidence, lower, upper) in Exact)
        {
            string at = $"{k} of {n}, {confidence:0.00}";
            yield return new("Clopper-Pearson, lower", at, ClopperPearson, lower, BinomialLimits.Lower(k, n, (1 + confidence) / 2), 11);
            yield return new("Clopper-Pearson, upper", at, ClopperPearson, upper, BinomialLimits.Upper(k, n, (1 + confidence) / 2), 11);
        }

        foreach (var (k, n, confidence, upper) in OneSided)
        {
            yield return new("Clopper-Pearson, one-sided", $"{k} of {n}, {confidence:0.00}", ClopperPearson, upper, BinomialLimits.Upper(k, n, confidence), 11);
        }

        foreach (var (k, n, confidence, lower, upper) in Wilsons)
        {
            string at = $"{k} of {n}, {confidence:0.00}";
            (double low, double high) = Wilson.Interval(k, n, confidence);
            yield return new("Wilson, lower", at, Score, lower, low, 10);
            yield return new("Wilson, upper", at, Score, upper, high, 10);
        }

        const string handbook = "NIST e-Handbook 7.2.4.1";
        yield return new("Clopper-Pearson, upper", "4 of 20, 0.90", handbook, 0.401029, BinomialLimits.Upper(4, 20, 0.95), 5.5);
        yield return new("Clopper-Pearson, lower", "4 of 20, 0.90", handbook, 0.071354, BinomialLimits.Lower(4, 20, 0.95), 5.5);

        // Far out: n shares of k events become Poisson's limits of k events (R poisson.test), but for k/n of themselves.
        const int many = 100_000_000;
        const string poisson = "R 4.2.2 poisson.test";
        yield return new("Clopper-Pearson, upper x n", "0 of 1e8, 0.95", poisson, 3.68887945411, many * BinomialLimits.Upper(0, many, 0.975), 7.5);
        yield return new("Clopper-Pearson, lower x n", "1 of 1e8, 0.95", poisson, 0.0253178079843, many * BinomialLimits.Lower(1, many, 0.975), 7);
        yield return new("Clopper-Pearson, upper x n", "1 of 1e8, 0.95", poisson, 5.57164339094, many * BinomialLimits.Upper(1, many, 0.975), 7);
        yield return new("Clopper-Pearson, upper x n", "5 of 1e8, 0.95", poisson, 11.6683320793, many * BinomialLimits.Upper(5, many, 0.975), 7);
        yield return new("Clopper-Pearson, upper", "0 of 20, 0.999999", "1 - 1e-6^(1/20)", 0.49881276637272776, BinomialLimits.Upper(0, 20, 0.999999), 9);
        yield return new("binomial tail", "0 of 1000, p 0.5", "2^-1000", Math.ScaleB(1, -1000), BinomialLimits.LowerTail(0, 1000, 0.5), 11);
        yield return new("binomial tail", "1 of 60, p 0.9", "0.1^60 + 60 0.9 0.1^59", 5.41e-58, BinomialLimits.LowerTail(1, 60, 0.9), 12);
        yield return new("binomial tail", "3 of 52, p 0.04", "R 4.2.2 pbinom", 0.845989468474, BinomialLimits.LowerTail(3, 52, 0.04), 11);
        yield return new("binomial tail", "3 of 52, p 0.12", "R 4.2.2 pbinom", 0.115198415950, BinomialLimits.LowerTail(3, 52, 0.12), 11);

        yield return new("two proportions, z squared", "56/70, 48/80", "R 4.2.2 prop.test", 7.023411371, Math.Pow(TwoProportions.Z(56, 70, 48, 80), 2), 9);
        yield return new("two proportions, p", "56/70, 48/80", "R 4.2.2 prop.test", 0.00804508137, 2 * TwoProportions.FirstGreater(56, 70, 48, 80), 8);
        yield return new("Fisher's exact test, p", "15/1200, 4/1100", "R 4.2.2 fisher.test", 0.0208221578215, TwoSamples.Fisher(15, 1200, 4, 1100), 9);
        yield return new("two rates, p", "11 in 800, 21 in 3011", "R 4.2.2 poisson.test, its example", 0.0796686330333, TwoSamples.Rates(11, 800, 21, 3011), 9);
    }
}
