using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// The oracle is a plain loop, to the last bit.
public class ElementwiseTests
{
    private static readonly Gen<double[]> Values =
        Gen.Frequency((20, Gen.Double[-1e3, 1e3]), (1, Gen.OneOf(Gen.Const(double.NaN), Gen.Const(double.PositiveInfinity), Gen.Const(double.NegativeInfinity), Gen.Const(1e300), Gen.Const(-0.0)))).Array[0, 70];

    [Fact]
    public void Bends_AnyValues_AreThoseOfAPlainLoop() =>
        Values.Where(v => v.Length > 1).Sample(values =>
        {
            double[] got = new double[values.Length - 2];
            Elementwise.Bends(values, got);
            Same(got.Select((_, i) => values[i + 1] - ((values[i] + values[i + 2]) / 2)), got);
        });

    [Fact]
    public void Distances_AnyValues_AreThoseOfAPlainLoop() =>
        Gen.Select(Values, Gen.Double[-10, 10]).Sample((values, centre) =>
        {
            double[] got = new double[values.Length];
            Elementwise.Distances(values, centre, got);
            Same(values.Select(v => Math.Abs(v - centre)), got);
        });

    [Fact]
    public void Bends_RoomTooSmall_IsRefused() =>
        Assert.ThrowsAny<ArgumentException>(() => Elementwise.Bends([1, 2, 3, 4], new double[1]));

    private static void Same(IEnumerable<double> expected, IEnumerable<double> got) => Assert.Equal(expected, got);
}
