using Bench.Analysis.Trends;
using CsCheck;

namespace Bench.Tests.Analysis.Trends;

// Against Pettitt 1979 and R: Campaigns/ChecksTests.
public class PettittTests
{
    [Fact]
    public void Of_EqualValues_ShowsNoChange() => Assert.Equal(1, Pettitt.Of([4, 4, 4, 4, 4]).Probability);

    [Fact]
    public void Of_OneValue_IsRefused() => Assert.Throws<ArgumentException>(() => Pettitt.Of([1]));

    [Fact]
    public void Of_ScaledShiftedReversed_HasTheSameK() =>
        Gen.Select(Gen.Int[-9, 9].Array[2, 40], Gen.Double[0.1, 5], Gen.Double[-50, 50]).Sample((v, scale, offset) =>
        {
            double[] x = [.. v.Select(i => (double)i)];
            Pettitt test = Pettitt.Of(x);
            Assert.InRange(test.Probability, 0, 1);
            Assert.InRange(test.Before, 1, x.Length - 1);
            Assert.Equal(test.K, Pettitt.Of([.. x.Select(i => (i * scale) + offset)]).K, 1e-9);
            Assert.Equal(test.K, Pettitt.Of([.. x.Reverse()]).K, 1e-9);
        });

    // Independent values, no change: rejected at 5 % in at most 5 % of cases; in fewer the fewer values there are (0.7 % of 12).
    [Theory]
    [InlineData(12)]
    [InlineData(60)]
    public void Probability_NoChange_IsNotTooSmall(int n)
    {
        Random random = new(7);
        int rejected = 0;
        for (int i = 0; i < 2000; i++)
        {
            rejected += Pettitt.Of([.. Enumerable.Range(0, n).Select(_ => random.NextDouble())]).Probability < 0.05 ? 1 : 0;
        }

        Assert.InRange(rejected, 5, 125);
    }
}
