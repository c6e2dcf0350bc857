using Bench.Analysis.Uncertainty;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using CsCheck;

namespace Bench.Tests.Analysis.Uncertainty;

public class ConformityTests
{
    // Specific risks published with an open uncertainty calculator (suncal): limits 9 to 11, probability outside.
    // Recomputed with R 4.2.2 and scipy 1.10.1.
    [Theory]
    [InlineData(10, 0.01241933065)]
    [InlineData(10.5, 0.105738191)]
    [InlineData(12, 0.9937903347)]
    public void Probability_TwoLimits_AgreesWithPublishedRisk(double value, double outside) =>
        Assert.Equal(outside, 1 - Conformity.Probability(value, 0.4, 9, 11), 1e-9);

    // JCGM 106:2012, example of a Zener diode (inputs from memory): -5.47 V, u 0.05 V, limit -5.40 V: Φ(1.4).
    [Fact]
    public void Probability_OneLimit_IsPhi() =>
        Assert.Equal(0.9192433408, Conformity.Probability(-5.47, 0.05, null, -5.40), 1e-10);

    // ILAC-G8:09/2019 states less than 2.5 % for a guard band w = U, U = 2 u; exact values of the normal distribution (R).
    [Theory]
    [InlineData(1.64, 0.05050258347)]
    [InlineData(2.0, 0.02275013195)]
    [InlineData(3.0, 0.00134989803)]
    public void Probability_AtAcceptanceLimit_LeavesTheStatedRisk(double factor, double risk) =>
        Assert.Equal(risk, 1 - Conformity.Probability(10 - factor, 1, null, 10), 1e-10);

    // JCGM 100, table G.2: t for 95.45 % and 5 degrees of freedom is 2.65.
    [Theory]
    [InlineData(12.64, FindingDecision.Undecided)]
    [InlineData(12.66, FindingDecision.DoesNotConform)]
    public void Decide_FewDegreesOfFreedom_GuardsByStudentsT(double value, FindingDecision expected) =>
        Assert.Equal(expected, Conformity.Decide(value, 1, null, 10, DecisionRule.Guarded, Coverage.Factor(5)));

    [Theory]
    [InlineData(7.99, FindingDecision.Conforms)]
    [InlineData(8.01, FindingDecision.Undecided)]
    [InlineData(11.99, FindingDecision.Undecided)]
    [InlineData(12.01, FindingDecision.DoesNotConform)]
    public void Decide_Guarded_LeavesABandUndecided(double value, FindingDecision expected) =>
        Assert.Equal(expected, Conformity.Decide(value, 1, null, 10, DecisionRule.Guarded));

    [Theory]
    [InlineData(10, FindingDecision.Conforms)]
    [InlineData(10.01, FindingDecision.DoesNotConform)]
    [InlineData(4.99, FindingDecision.DoesNotConform)]
    public void Decide_Simple_ValueAloneDecides(double value, FindingDecision expected) =>
        Assert.Equal(expected, Conformity.Decide(value, 1, 5, 10, DecisionRule.Simple));

    [Theory]
    [InlineData(double.NaN, 1.0, 0.0)]
    [InlineData(1.0, double.NaN, 0.0)]
    [InlineData(1.0, 1.0, double.NaN)]
    [InlineData(double.PositiveInfinity, 1.0, 0.0)]
    [InlineData(1.0, -1.0, 0.0)]
    public void Decide_NotANumber_IsRefused(double value, double uncertainty, double limit)
    {
        Assert.Throws<ArgumentException>(() => Conformity.Decide(value, uncertainty, null, limit, DecisionRule.Simple));
        Assert.Throws<ArgumentException>(() => Conformity.Probability(value, uncertainty, limit, null));
    }

    [Fact]
    public void Decide_Guarded_AgreesWithProbabilityForOneLimit() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[0.01, 3], Gen.Double[1, 50].Nullable()).Sample((value, u, freedom) =>
        {
            const double risk = 0.0227501319481792;
            double p = Conformity.Probability(value, u, null, 0, freedom);
            FindingDecision expected = p > 1 - risk ? FindingDecision.Conforms : p < risk ? FindingDecision.DoesNotConform : FindingDecision.Undecided;
            if (Math.Abs(p - (1 - risk)) > 1e-8 && Math.Abs(p - risk) > 1e-8)
            {
                Assert.Equal(expected, Conformity.Decide(value, u, null, 0, DecisionRule.Guarded, freedom is double v ? Coverage.Factor(v) : null));
            }
        });
}
