using Bench.Reporting.Plots;
using CsCheck;

namespace Bench.Tests.Reporting.Plots;

public class DecimationTests
{
    [Fact]
    public void Thin_ShortSeries_StaysAsItIs()
    {
        (double[] xs, double[] ys) = Decimation.Thin([0, 1, 2], [5, 4, 6]);

        Assert.Equal([0, 1, 2], xs);
        Assert.Equal([5, 4, 6], ys);
    }

    [Fact]
    public void Thin_AnyLongSeries_KeepsEndsAndExtremesInOrder() =>
        Gen.Double[-10, 10].Array[2000, 20000].Sample(
            values =>
            {
                double[] times = [.. values.Select((_, i) => i / 45.0)];
                (double[] xs, double[] ys) = Decimation.Thin(times, values);
                return xs.Length == ys.Length
                    && xs.Length <= 4 * Decimation.Columns
                    && xs[0] == times[0] && xs[^1] == times[^1]
                    && ys.Min() == values.Min() && ys.Max() == values.Max()
                    && xs.Zip(xs.Skip(1)).All(pair => pair.First < pair.Second);
            },
            iter: 30);

    [Fact]
    public void Thin_OneSpikeAmongAThousandSeconds_KeepsTheSpike()
    {
        double[] values = new double[45000];
        values[31415] = 9.5;

        (double[] xs, double[] ys) = Decimation.Thin([.. values.Select((_, i) => i / 45.0)], values);

        Assert.Equal(31415 / 45.0, xs[Array.IndexOf(ys, 9.5)]);
    }
}
