using Bench.Analysis.Comparing;
using Bench.Model.Comparisons;
using Bench.Model.Runs;

namespace Bench.Tests.Running;

/// <summary>One simulated unit, run twice on one bench: only the bench's noise differs.</summary>
public sealed class RepeatedRunTests
{
    [Fact]
    public void Compare_OneUnitRunAgain_ShowsNoDifference()
    {
        RunComparison comparison = RunComparer.Compare(Sealed(chance: 1), Sealed(chance: 2));
        Assert.Equal(ComparisonOutcome.NoDifferenceShown, comparison.Outcome);
        Assert.True(comparison.Tested > 15);
    }

    [Fact]
    public void Compare_RealBudgets_HoldTheSourcesThatTwoRunsShare()
    {
        RunComparison comparison = RunComparer.Compare(Sealed(chance: 1), Sealed(chance: 2));
        string[] shared = [.. comparison.Features.SelectMany(f => f.SharedSources).Distinct().Order()];
        Assert.Equal(["current meter", "torque constant of the type", "voltage meter"], shared);
    }

    private static readonly Dictionary<ulong, SealedRun> Done = [];

    private static SealedRun Sealed(ulong chance)
    {
        if (!Done.TryGetValue(chance, out SealedRun? run))
        {
            run = Done[chance] = new SealedRun
            {
                Record = new VirtualRun(VirtualRun.Diverter, chance: chance).Execute(),
                Hash = new string('a', 64),
                PreviousHash = "",
            };
        }

        return run;
    }
}
