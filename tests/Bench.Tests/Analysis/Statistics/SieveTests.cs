using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// The oracle is a plain loop.
public class SieveTests
{
    // Few different values, so that marks are met exactly, and what is no number.
    private static readonly Gen<double> Value = Gen.Frequency(
        (12, Gen.Int[-5, 5].Select(v => (double)v)),
        (4, Gen.Double[-5, 5]),
        (1, Gen.OneOf(Gen.Const(double.NaN), Gen.Const(double.PositiveInfinity), Gen.Const(double.NegativeInfinity), Gen.Const(-0.0))));

    private static readonly Gen<(double[] Values, double Low, double High)> Any = Gen.Select(Value.Array[0, 70], Value, Value);

    [Fact]
    public void Between_AnyValuesAndMarks_KeepsAndCountsAsAPlainLoop() =>
        Any.Sample(x =>
        {
            double[] room = new double[x.Values.Length + Sieve.Spare];
            (int atMostLow, int kept) = Sieve.Between(x.Values, x.Low, x.High, room);
            Assert.Equal(x.Values.Count(v => v <= x.Low), atMostLow);
            Assert.Equal(x.Values.Where(v => v > x.Low && v < x.High), room[..kept]);
        }, iter: 2000);

    [Fact]
    public void Equal_AnyValuesAndMarks_CountsAsAPlainLoop() =>
        Any.Sample(x => Assert.Equal((x.Values.Count(v => v == x.Low), x.Values.Count(v => v == x.High)), Sieve.Equal(x.Values, x.Low, x.High)), iter: 2000);

    [Fact]
    public void Below_AnyValuesAndMark_CountsAndFindsAsAPlainLoop() =>
        Any.Sample(x =>
        {
            double[] below = [.. x.Values.Where(v => v < x.High)];
            Assert.Equal((below.Length, below.DefaultIfEmpty(double.NegativeInfinity).Max()), Sieve.Below(x.Values, x.High));
        }, iter: 2000);
}
