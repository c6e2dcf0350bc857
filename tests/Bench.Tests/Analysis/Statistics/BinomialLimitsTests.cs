using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

public class BinomialLimitsTests
{
    // R 4.2.2 binom.test (Clopper and Pearson 1934), two-sided.
    [Theory]
    [InlineData(0, 10, 0.95, 0, 0.308497107819)]
    [InlineData(0, 59, 0.95, 0, 0.0606089009503)]
    [InlineData(1, 10, 0.95, 0.00252857854446, 0.445016117028)]
    [InlineData(4, 20, 0.90, 0.0713538843086, 0.401028117332)]
    [InlineData(3, 50, 0.95, 0.0125485878353, 0.165481946604)]
    [InlineData(12, 70, 0.95, 0.0918422074277, 0.280308410905)]
    [InlineData(22, 22, 0.95, 0.845627487184, 1)]
    [InlineData(263, 1000, 0.95, 0.23594352468, 0.291459361439)]
    public void Limits_TwoSided_AgreeWithR(int k, int n, double confidence, double lower, double upper)
    {
        Assert.Equal(lower, BinomialLimits.Lower(k, n, (1 + confidence) / 2), 1e-10);
        Assert.Equal(upper, BinomialLimits.Upper(k, n, (1 + confidence) / 2), 1e-10);
    }

    // R 4.2.2 binom.test, one-sided upper.
    [Theory]
    [InlineData(0, 22, 0.90, 0.0993719797887)]
    [InlineData(0, 59, 0.95, 0.0495076098882)]
    [InlineData(0, 299, 0.95, 0.0099691467929)]
    [InlineData(0, 459, 0.99, 0.00998288736613)]
    [InlineData(1, 38, 0.90, 0.0985467087816)]
    [InlineData(2, 77, 0.95, 0.0795123521278)]
    public void Upper_OneSided_AgreesWithR(int k, int n, double confidence, double expected) =>
        Assert.Equal(expected, BinomialLimits.Upper(k, n, confidence), 1e-10);

    // Single sampling plan n = 52, c = 3: probabilities of acceptance by R pbinom.
    [Theory]
    [InlineData(0.01, 0.998153065260)]
    [InlineData(0.04, 0.845989468474)]
    [InlineData(0.12, 0.115198415950)]
    public void LowerTail_SamplingPlan_AgreesWithR(double p, double expected) =>
        Assert.Equal(expected, BinomialLimits.LowerTail(3, 52, p), 1e-11);

    [Fact]
    public void LowerTail_AtUpperLimit_IsWhatConfidenceLeaves() =>
        Gen.Select(Gen.Int[0, 40], Gen.Int[1, 60], Gen.Double[0.5, 0.999]).Sample((k, more, confidence) =>
        {
            int n = k + more;
            Assert.Equal(1 - confidence, BinomialLimits.LowerTail(k, n, BinomialLimits.Upper(k, n, confidence)), 1e-8);
        });
}
