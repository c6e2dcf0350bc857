using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

public class BlockRanksTests
{
    // A period makes most values equal, jitter none; blocks are of any length, empty ones too.
    private static readonly Gen<double[][]> Blocks =
        from different in Gen.OneOf(Gen.Int[1, 5], Gen.Int[1000, 100000])
        from blocks in Gen.Int[0, different].Select(v => v * 1e-7).Array[0, 900].Array[1, 12]
        where blocks.Any(b => b.Length > 0)
        select blocks;

    [Fact]
    public void At_AnyBlocksAndRanks_IsThatOfTheSortedValues() =>
        Gen.Select(Blocks, Gen.Double.Unit, Gen.Double.Unit).Sample((blocks, first, second) =>
        {
            double[] sorted = [.. blocks.SelectMany(b => b).Order()];
            int[] ranks = [(int)(first * (sorted.Length - 1)), (int)(second * (sorted.Length - 1))];
            double[] got = BlockRanks.At([.. blocks.Select(b => new ReadOnlyMemory<double>(b))], ranks);
            Assert.Equal(ranks.Select(r => sorted[r]), got);
        }, iter: 300);

    // The sample is of every so many values; where those are all alike the bracket misses.
    [Fact]
    public void At_SampleThatTellsNothing_IsStillExact()
    {
        double[] values = [.. Enumerable.Range(0, 6400).Select(i => i % 32 == 0 ? 1e6 : i)];
        Assert.Equal([values.Order().ElementAt(3200)], BlockRanks.At([values], 3200));
    }
}
