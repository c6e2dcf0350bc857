using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// Against R, tables and closed forms: Campaigns/ChecksTests.
public class BinomialLimitsTests
{
    [Fact]
    public void LowerTail_AtUpperLimit_IsWhatConfidenceLeaves() =>
        Gen.Select(Gen.Int[0, 40], Gen.Int[1, 60], Gen.Double[0.5, 0.999]).Sample((k, more, confidence) =>
        {
            int n = k + more;
            Assert.Equal(1 - confidence, BinomialLimits.LowerTail(k, n, BinomialLimits.Upper(k, n, confidence)), 1e-8);
        });
}
