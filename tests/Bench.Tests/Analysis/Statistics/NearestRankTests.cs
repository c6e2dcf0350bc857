using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

public class NearestRankTests
{
    // Few different values make ties, of which a meter's resolution gives many; many values are bracketed, few are not.
    private static readonly Gen<double[]> Values =
        from different in Gen.Int[1, 3000]
        from values in Gen.Int[0, different].Array[1, 3000]
        select values.Select(v => v * 0.0005).ToArray();

    [Fact]
    public void Of_AnyValues_IsThatOfTheSortedOnes() =>
        Gen.Select(Values, Gen.Double[0.001, 1]).Sample((values, share) =>
        {
            double[] sorted = [.. values.Order()];
            double[] asTheyWere = [.. values];
            Assert.Equal(sorted[Math.Max(1, (int)Math.Ceiling(share * sorted.Length)) - 1], NearestRank.Of(values, share));
            Assert.Equal(asTheyWere, values);
        }, iter: 500);

    [Fact]
    public void Median_AnyValues_IsTheMiddleOfTheSortedOnes() =>
        Values.Sample(values =>
        {
            double[] sorted = [.. values.Order()];
            int half = sorted.Length / 2;
            Assert.Equal(sorted.Length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2, Robust.Median(values));
        }, iter: 500);

    // Slopes between readings at nearly one instant can be endless.
    [Fact]
    public void Of_InfiniteValuesAmongThem_IsThatOfTheSortedOnes() =>
        Gen.Select(Gen.OneOf(Gen.Int[0, 3].Select(v => (double)v), Gen.OneOf(Gen.Const(double.NegativeInfinity), Gen.Const(double.PositiveInfinity))).Array[1, 1200], Gen.Double[0.001, 1])
            .Sample((values, share) => Assert.Equal(values.Order().ElementAt(NearestRank.Place(values.Length, share)), NearestRank.Of(values, share)), iter: 300);

    [Fact]
    public void Of_NoValues_IsNull() => Assert.Null(NearestRank.Of([], 0.5));
}
