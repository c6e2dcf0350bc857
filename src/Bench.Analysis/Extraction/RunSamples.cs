using Bench.Analysis.Feedback;
using Bench.Analysis.Supply;
using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>What is gathered from all samples of a run, each seen once, in moves and between them.</summary>
internal sealed class RunSamples
{
    /// <summary>Samples that a processor keeps at hand from one reader of them to the next.</summary>
    public const int Block = 256;

    /// <summary>Samples seen.</summary>
    public int Count { get; private set; }

    /// <summary>What was read at rest.</summary>
    public RestReadings Rest { get; } = new();

    /// <summary>Readings lost.</summary>
    public LostReadingsTally Lost { get; } = new(null);

    /// <summary>Adds what a trace holds beyond the samples seen.</summary>
    /// <param name="trace">The trace.</param>
    /// <param name="end">The sample after the last to add.</param>
    /// <param name="firstOnS">When the drive was first on, seconds.</param>
    public void Add(Trace trace, int end, double firstOnS)
    {
        while (Count < end)
        {
            ReadOnlySpan<Sample> block = trace.Slice(Count, Math.Min(Block, end - Count));
            Rest.Add(block, firstOnS);
            Lost.Add(block);
            Count += block.Length;
        }
    }
}
