using Bench.Campaigns.Checks;

namespace Bench.Tests.Campaigns;

// The part of tests/campaigns/checks.sh that needs no other program.
public class ChecksTests
{
    [Fact]
    public void Checks_AgainstPublishedNumbers_AllHold()
    {
        IReadOnlyList<Check> checks = AllChecks.Of();
        Assert.True(checks.Count > 300, $"{checks.Count} checks");
        Assert.Empty(checks.Where(c => !c.Holds).Select(c => $"{c.Method}, {c.Case}: {c.Got:R} for {c.Expected:R} ({c.Source}), {c.Digits:0.0} of {c.LeastDigits} digits"));
    }

    // Each is one of its kind: a row that stands twice proves nothing the second time.
    [Fact]
    public void Checks_Rows_StandOnce() =>
        Assert.Empty(AllChecks.Of().GroupBy(c => (c.Method, c.Case, c.Source)).Where(g => g.Count() > 1).Select(g => g.Key));

    // McCullough 1998: the digits of 12.345 for 12.346 are -log10(0.001/12.346).
    [Theory]
    [InlineData(12.345, 12.346, 4.0915)]
    [InlineData(12.346, 12.346, 15)]
    [InlineData(0.001, 0, 3)]
    [InlineData(99, 1, 0)]
    [InlineData(double.NaN, 1, 0)]
    public void AgreedDigits_Pairs_AreTheLogRelativeError(double got, double expected, double digits) =>
        Assert.Equal(digits, AgreedDigits.Of(got, expected), 1e-3);
}
