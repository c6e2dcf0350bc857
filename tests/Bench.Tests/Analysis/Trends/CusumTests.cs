using Bench.Analysis.Trends;
using CsCheck;

namespace Bench.Tests.Analysis.Trends;

// Against the NIST e-Handbook and R spc: Campaigns/ChecksTests.
public class CusumTests
{
    [Fact]
    public void Of_Mirrored_SwapsUpAndDown() =>
        Gen.Double[-3, 3].Array[1, 40].Sample(x =>
        {
            Cusum there = Cusum.Of(x, 0, 0.5, 5);
            Cusum back = Cusum.Of([.. x.Select(v => -v)], 0, 0.5, 5);
            Assert.Equal(there.Up, back.Down);
            Assert.Equal(there.FirstSignal, back.FirstSignal);
            Assert.Equal(there.Onset, back.Onset);
        });

    [Fact]
    public void Of_LevelChangesAtTwenty_SignalsSoonAfterAndNamesTheOnset()
    {
        double[] x = [.. Enumerable.Range(0, 40).Select(i => (i % 2 == 0 ? 0.4 : -0.4) + (i < 20 ? 0 : 3))];
        Cusum sums = Cusum.Of(x, 0, 0.5, 5);

        Assert.Equal(20, sums.Onset);
        Assert.InRange(sums.FirstSignal!.Value, 21, 24);
    }

    [Fact]
    public void Of_NoValues_HasNoSignal() => Assert.Null(Cusum.Of([], 0, 0.5, 5).FirstSignal);

    // A chart of the constants used takes some 465 values to a false alarm (Fredholm equation); seeded runs agree.
    [Fact]
    public void RunLength_SeededRuns_AgreesWithTheEquation()
    {
        Random random = new(11);
        double k = Cusum.Reference, h = Cusum.Decision;
        double sum = 0;
        for (int run = 0; run < 400; run++)
        {
            double up = 0, down = 0;
            int n = 0;
            while (Math.Max(up, down) <= h)
            {
                double x = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
                up = Math.Max(0, up + x - k);
                down = Math.Max(0, down - x - k);
                n++;
            }

            sum += n;
        }

        // Run lengths scatter about as much as their mean: 465 ± 4 · 465/√400.
        Assert.InRange(sum / 400, 370, 560);
        Assert.Equal(465.44, CusumRunLength.TwoSided(k, h, 0), 0.01);
    }

    // Siegmund's closed form against the integral equation.
    [Theory]
    [InlineData(0.5, 200)]
    [InlineData(0.5, 1000)]
    [InlineData(0.5, 20000)]
    [InlineData(0.25, 1000)]
    [InlineData(1, 1000)]
    public void DecisionFor_Length_GivesThatLength(double k, double length) =>
        Assert.InRange(CusumRunLength.TwoSided(k, CusumRunLength.DecisionFor(k, length), 0) / length, 0.94, 1.06);
}
