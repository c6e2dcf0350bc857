using Bench.Analysis.Statistics;

namespace Bench.Tests.Analysis.Statistics;

public class DescribeTests
{
    // NIST StRD, certified values read from the files. The last argument is the number of agreeing digits asked for:
    // NumAcc3 and NumAcc4 hold decimals that binary numbers can't, which alone costs their last digits.
    [Theory]
    [InlineData("Lew.dat", 13)]
    [InlineData("Lottery.dat", 13)]
    [InlineData("Mavro.dat", 11)]
    [InlineData("Michelso.dat", 12)]
    [InlineData("NumAcc1.dat", 13)]
    [InlineData("NumAcc2.dat", 13)]
    [InlineData("NumAcc3.dat", 9)]
    [InlineData("NumAcc4.dat", 8)]
    public void MeanAndDeviation_NistReferenceSet_AgreeWithCertifiedValues(string file, int digits)
    {
        (double mean, double deviation, double[] values) = CheckData.Nist(file);

        Assert.InRange(Math.Abs((Describe.Mean(values) / mean) - 1), 0, 1e-13);
        Assert.InRange(Math.Abs((Describe.StandardDeviation(values) / deviation) - 1), 0, Math.Pow(10, -digits));
    }

    [Fact]
    public void StandardDeviation_OneValue_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Describe.StandardDeviation([1.0]));
}
