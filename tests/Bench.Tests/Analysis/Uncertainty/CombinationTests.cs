using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using CsCheck;

namespace Bench.Tests.Analysis.Uncertainty;

public class CombinationTests
{
    // JCGM 100:2008, example H.1, end gauge: contributions of table H.1 in nm with their degrees of freedom (H.1.6).
    // Published: u_c = 32 nm (rounded from 31.7), 16 effective degrees of freedom, U_99 = 93 nm.
    private static readonly Contribution[] EndGauge =
    [
        Line("calibration of the standard", 25, 18),
        Line("repeated observations", 5.8, 24),
        Line("random effects of the comparator", 3.9, 5),
        Line("systematic effects of the comparator", 6.7, 8),
        Line("difference of expansion coefficients", 2.9, 50),
        Line("difference of temperatures", 16.6, 2),
    ];

    [Fact]
    public void StandardUncertainty_EndGauge_AgreesWithTheGuide() => Assert.Equal(31.7, Combination.StandardUncertainty(EndGauge), 0.05);

    [Fact]
    public void DegreesOfFreedom_EndGauge_AgreesWithTheGuide() => Assert.Equal(16, Math.Floor(Combination.DegreesOfFreedom(EndGauge)!.Value));

    // JCGM 100, G.4.1, example: factors of 10, 5 and 15 repeated observations and relative uncertainties 0.25, 0.57 and 0.82 %; published 1.03 % and 19.0.
    [Fact]
    public void DegreesOfFreedom_ProductOfThree_AgreesWithTheGuide()
    {
        Contribution[] budget = [Line("one", 0.25, 9), Line("two", 0.57, 4), Line("three", 0.82, 14)];
        Assert.Equal(1.03, Combination.StandardUncertainty(budget), 0.005);
        Assert.Equal(19.0, Combination.DegreesOfFreedom(budget)!.Value, 0.05);
    }

    [Fact]
    public void DegreesOfFreedom_OnlyFromCertificates_IsInfinite() =>
        Assert.Null(Combination.DegreesOfFreedom([new Contribution("meter", EvaluationType.B, ErrorDistribution.Normal, 2)]));

    // JCGM 100, table G.2, column 95.45 %.
    [Theory]
    [InlineData(1, 13.97)]
    [InlineData(3, 3.31)]
    [InlineData(10, 2.28)]
    [InlineData(50, 2.05)]
    [InlineData(100, 2.025)]
    public void Factor_DegreesOfFreedom_AgreesWithTheGuidesTable(double freedom, double t) => Assert.Equal(t, Coverage.Factor(freedom), 0.005);

    // G.4.1, note 2: never below the least degrees of freedom of a source, nor above the sum of all.
    [Fact]
    public void DegreesOfFreedom_AnyBudget_LiesBetweenTheLeastAndTheSum() =>
        Gen.Select(Gen.Double[0.01, 10], Gen.Int[1, 20], Gen.Double[-3, 3].Where(c => c != 0)).Array[1, 6].Sample(lines =>
        {
            Contribution[] budget = [.. lines.Select((l, i) => Line($"{i}", l.Item1, l.Item2) with { Sensitivity = l.Item3 })];
            double? freedom = Combination.DegreesOfFreedom(budget);
            Assert.InRange(freedom ?? 200, lines.Min(l => l.Item2) - 1e-9, Math.Max(200, lines.Sum(l => l.Item2)) + 1e-9);
            Assert.True(freedom is null || freedom <= lines.Sum(l => l.Item2) + 1e-9);
        });

    private static Contribution Line(string source, double u, double freedom) =>
        new(source, EvaluationType.A, ErrorDistribution.Normal, u) { DegreesOfFreedom = freedom };
}
