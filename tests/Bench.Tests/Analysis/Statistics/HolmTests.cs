using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

public class HolmTests
{
    // By hand from Holm 1979: sorted 0.005, 0.01, 0.03, 0.04 against 0.0125, 0.0167, 0.025, 0.05: stops at the third.
    [Fact]
    public void Rejected_FourTests_StopsAtFirstThatHolds() =>
        Assert.Equal([true, false, false, true], Holm.Rejected([0.01, 0.04, 0.03, 0.005], 0.05));

    [Fact]
    public void Rejected_AnyTests_HoldsAtLeastBonferroniAndAtMostUncorrected() =>
        Gen.Double[0, 1].Array[1, 50].Sample(p =>
        {
            bool[] rejected = Holm.Rejected(p, 0.05);
            for (int i = 0; i < p.Length; i++)
            {
                Assert.True(!(p[i] <= 0.05 / p.Length) || rejected[i]);
                Assert.True(!rejected[i] || p[i] <= 0.05);
            }
        });
}
