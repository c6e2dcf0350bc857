namespace Bench.Analysis.Statistics;

/// <summary>Values by rank of so many that they are kept in blocks: all ranks in one pass, in which each block comes from memory once.</summary>
internal static class BlockRanks
{
    /// <summary>The values of some ranks.</summary>
    /// <param name="blocks">Finite values, at least one; left as they are.</param>
    /// <param name="ranks">Ranks from 0.</param>
    public static double[] At(IReadOnlyList<ReadOnlyMemory<double>> blocks, params ReadOnlySpan<int> ranks)
    {
        int count = blocks.Sum(b => b.Length);
        Span<double> sample = stackalloc double[RankBracket.SampleSize(count)];
        Fill(sample, blocks, count);
        RankBracket[] brackets = new RankBracket[ranks.Length];
        for (int k = 0; k < ranks.Length; k++)
        {
            brackets[k] = new RankBracket(sample, ranks[k], count);
        }

        foreach (ReadOnlyMemory<double> block in blocks)
        {
            foreach (RankBracket bracket in brackets)
            {
                bracket.Add(block.Span);
                bracket.AddEnds(block.Span);
            }
        }

        double[] values = new double[ranks.Length];
        for (int k = 0; k < ranks.Length; k++)
        {
            using RankBracket bracket = brackets[k];
            values[k] = bracket.At(ranks[k]) ?? OrderStatistics.At([.. blocks.SelectMany(b => b.ToArray())], ranks[k]);
        }

        return values;
    }

    private static void Fill(Span<double> sample, IReadOnlyList<ReadOnlyMemory<double>> blocks, int count)
    {
        int block = 0;
        int before = 0;
        for (int i = 0; i < sample.Length; i++)
        {
            int at = (int)((long)i * count / sample.Length);
            for (; at >= before + blocks[block].Length; block++)
            {
                before += blocks[block].Length;
            }

            sample[i] = blocks[block].Span[at - before];
        }
    }
}
