using Bench.Analysis.Currents;
using Bench.Model.Features;

namespace Bench.Tests.Analysis.Currents;

public class HealthyBandTests
{
    private static readonly DateTimeOffset Day = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Of_NineUnits_GivesNoBandAndSaysHowManyThereWere()
    {
        CurrentReference reference = HealthyBand.Of(Units(9));

        Assert.Equal((9, 10), (reference.Units, reference.LeastUnits));
        Assert.Empty(reference.Bins);
    }

    [Fact]
    public void Of_NoUnits_GivesNoBand()
    {
        CurrentReference reference = HealthyBand.Of([]);

        Assert.Equal(0, reference.Units);
        Assert.Null(reference.From);
        Assert.Empty(reference.Bins);
    }

    // Wilks 1941: between the k-th least and k-th greatest of n lie (n + 1 - 2k)/(n + 1) of all, on average.
    [Theory]
    [InlineData(10, 0, 9, 9.0 / 11)]
    [InlineData(20, 0, 19, 19.0 / 21)]
    [InlineData(21, 1, 19, 18.0 / 22)]
    [InlineData(40, 1, 38, 37.0 / 41)]
    public void Of_ManyUnits_ReachesFromTheKthLeastToTheKthGreatest(int units, int low, int high, double share)
    {
        CurrentReference reference = HealthyBand.Of(Units(units));

        Assert.Equal(new CurrentRange(0.2 + (0.001 * low), 0.2 + (0.001 * high)), reference.Bins[0]);
        Assert.Equal(share, reference.Share, 1e-12);
        Assert.Equal((Day, Day.AddDays(units - 1)), (reference.From, reference.To));
    }

    [Fact]
    public void Of_BinThatTooFewUnitsHave_IsLeftOut() => Assert.Null(HealthyBand.Of(Units(12)).Bins[1]);

    [Fact]
    public void Of_UnitWithOtherBins_IsNotCounted()
    {
        HealthyCurrent other = new(Day, Profile(0.5, first: 2));

        Assert.Equal(10, HealthyBand.Of([.. Units(10), other]).Units);
    }

    // Unit i draws 200 mA + i mA in the first bin; the second was measured on five of them.
    private static HealthyCurrent[] Units(int number) =>
        [.. Enumerable.Range(0, number).Select(i => new HealthyCurrent(Day.AddDays(i), Profile(0.2 + (0.001 * i), second: i < 5 ? 0.3 : null)))];

    private static AngleProfile Profile(double meanA, double first = 0, double? second = null) =>
        new() { BinCounts = 400, FirstCount = first, MeanA = [meanA, second], Samples = [9, 9] };
}
