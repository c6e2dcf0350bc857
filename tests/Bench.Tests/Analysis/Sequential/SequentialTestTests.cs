using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Tests.Analysis.Sequential;

public class SequentialTestTests
{
    private static Demonstration Plan(double p0, double p1, double alpha, double beta, int most = 1000) => new()
    {
        P0 = p0,
        P1 = p1,
        Alpha = alpha,
        Beta = beta,
        MostMoves = most,
        RingCoverage = 0.98,
        MissedSensorAlpha = 0.05,
    };

    // Wald's test with p0 0.01, p1 0.10, alpha 0.05, beta 0.10, computed with R 4.2.2 and scipy 1.10.1:
    // boundaries and steps; no failures: goes on at 23 with -2.1921341355, accepts at 24 with -2.2874443153.
    [Fact]
    public void Add_NoFailures_AcceptsWhereTheTablesSay()
    {
        SequentialTest test = new(Plan(0.01, 0.10, 0.05, 0.10));
        for (int i = 0; i < 23; i++)
        {
            test.Add(true);
        }

        Assert.Equal(-2.1921341355, test.LogRatio, 1e-9);
        Assert.Equal(SequentialState.Continue, test.State);
        Assert.Equal(1, test.MovesToGo);
        test.Add(true);
        Assert.Equal(-2.2874443153, test.LogRatio, 1e-9);
        Assert.Equal(SequentialState.Shown, test.State);
        Assert.Equal(2.8903717579, test.Result().RejectAt, 1e-9);
        Assert.Equal(-2.2512917986, test.Result().AcceptAt, 1e-9);
    }

    // Same source: two failures reject up to the 19th move (2.9848971293), not at the 20th (2.8895869495).
    [Theory]
    [InlineData(17, SequentialState.Refuted, 2.9848971293)]
    [InlineData(18, SequentialState.Continue, 2.8895869495)]
    public void Add_TwoFailures_RejectsWhereTheTablesSay(int passed, SequentialState expected, double ratio)
    {
        SequentialTest test = new(Plan(0.01, 0.10, 0.05, 0.10));
        for (int i = 0; i < passed; i++)
        {
            test.Add(true);
        }

        test.Add(false);
        test.Add(false);

        Assert.Equal(ratio, test.LogRatio, 1e-9);
        Assert.Equal(expected, test.State);
    }

    // Same source: expected numbers of moves (Wald's approximation).
    [Theory]
    [InlineData(0.01, 0.10, 27.9570211045, 16.4466786691)]
    [InlineData(0.05, 0.20, 21.2278516584, 16.9997715577)]
    public void ExpectedMoves_TwoPlans_AgreeWithTables(double p0, double p1, double atP0, double atP1)
    {
        SequentialTest test = new(Plan(p0, p1, 0.05, 0.10));

        Assert.Equal(atP0, test.Result().ExpectedMovesAtP0, 1e-8);
        Assert.Equal(atP1, test.ExpectedMovesAtP1, 1e-8);
    }

    // One-sided Clopper-Pearson, R binom.test: 0 of 59 at 95 %.
    [Fact]
    public void Result_FiftyNinePasses_GivesUpperLimit()
    {
        SequentialTest test = new(Plan(0.005, 0.08, 0.05, 0.05));
        for (int i = 0; i < 59; i++)
        {
            test.Add(true);
        }

        Assert.Equal(0.0495076098882, test.Result().UpperLimit95!.Value, 1e-10);
    }

    [Fact]
    public void Add_FailuresAfterAcceptance_CanStillRefute()
    {
        SequentialTest test = new(Plan(0.01, 0.10, 0.05, 0.10));
        for (int i = 0; i < 24; i++)
        {
            test.Add(true);
        }

        test.Add(false);
        Assert.Equal(SequentialState.Shown, test.State);
        test.Add(false);
        test.Add(false);
        Assert.Equal(SequentialState.Refuted, test.State);
    }

    [Fact]
    public void State_MostMovesWithoutDecision_IsTruncated()
    {
        SequentialTest test = new(Plan(0.01, 0.10, 0.05, 0.10, most: 5));
        for (int i = 0; i < 5; i++)
        {
            test.Add(true);
        }

        Assert.Equal(SequentialState.Truncated, test.State);
    }

    // Error rates by simulation: at p0 at most alpha refuted, at p1 at most beta shown, within three standard errors.
    [Theory]
    [InlineData(0.005, 0.05)]
    [InlineData(0.08, 0.05)]
    public void State_ManySimulatedUnits_KeepsItsPromise(double share, double most)
    {
        Random random = new(20260601);
        const int Units = 4000;
        int wrong = 0;
        for (int i = 0; i < Units; i++)
        {
            SequentialTest test = new(Plan(0.005, 0.08, 0.05, 0.05, most: 500));
            while (test.State == SequentialState.Continue)
            {
                test.Add(random.NextDouble() >= share);
            }

            wrong += test.State == (share < 0.01 ? SequentialState.Refuted : SequentialState.Shown) ? 1 : 0;
        }

        Assert.InRange(wrong, 0, Units * (most + (3 * Math.Sqrt(most * (1 - most) / Units))));
    }

    [Theory]
    [InlineData(0, 0.1)]
    [InlineData(0.1, 0.1)]
    [InlineData(0.1, 1)]
    public void Constructor_SharesNotInOrder_IsRefused(double p0, double p1) =>
        Assert.Throws<ArgumentException>(() => new SequentialTest(Plan(p0, p1, 0.05, 0.05)));
}
