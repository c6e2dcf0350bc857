using Bench.Model.Rings;
using CsCheck;

namespace Bench.Tests.Model.Rings;

public class RingTests
{
    // common practice, no source: on a ring read 0 to 999, 999 and 0 name the same place give or take one.
    [Theory]
    [InlineData(0, 999, 1)]
    [InlineData(999, 0, -1)]
    [InlineData(998, 0, -2)]
    [InlineData(500, 0, 500)]
    [InlineData(0, 500, 500)]
    [InlineData(333, 333, 0)]
    public void Difference_OnRingOf1000_GoesTheShortWay(int reading, int target, int expected) =>
        Assert.Equal(expected, new Ring(1000).Difference(reading, target));

    [Fact]
    public void Difference_AnyTwoCounts_LiesWithinHalfATurnAndLeadsBack() =>
        Gen.Select(Gen.Int[Ring.LeastCounts, Ring.MostCounts], Gen.Int[-200_000, 200_000], Gen.Int[-200_000, 200_000])
            .Sample((n, a, b) =>
            {
                Ring ring = new(n);
                int d = ring.Difference(a, b);
                Assert.InRange(2 * d, -n + 1, n);
                Assert.Equal(ring.Place((long)a), ring.Place((long)b + d));
            });

    [Fact]
    public void Difference_RingTurnedByAnyAngle_IsTheSame() =>
        Gen.Select(Gen.Int[3, 5000], Gen.Int[0, 5000], Gen.Int[0, 5000], Gen.Int[-9999, 9999])
            .Sample((n, a, b, turn) =>
            {
                Ring ring = new(n);
                Assert.Equal(ring.Difference(a, b), ring.Difference(a + turn, b + turn));
            });

    [Theory]
    [InlineData(2)]
    [InlineData(0)]
    [InlineData(65537)]
    public void Ring_CountsOutOfRange_IsRefused(int counts) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Ring(counts));

    [Theory]
    [InlineData(790, 10, true, 20)]
    [InlineData(790, 10, false, -780)]
    [InlineData(10, 10, false, 0)]
    public void Travel_InOneDirection_NeverTurnsBack(int from, int to, bool up, int expected) =>
        Assert.Equal(expected, new Ring(800).Travel(from, to, up));
}
