using Bench.Analysis.Feedback;
using Bench.Analysis.Supply;
using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>What is gathered from all samples of a run, each seen once, in moves and between them.</summary>
internal sealed class RunSamples
{
    /// <summary>Samples seen.</summary>
    public int Count { get; private set; }

    /// <summary>What was read at rest.</summary>
    public RestReadings Rest { get; } = new();

    /// <summary>Readings lost.</summary>
    public LostReadingsTally Lost { get; } = new(null);

    /// <summary>Adds what a trace holds beyond the samples seen.</summary>
    /// <param name="trace">The trace.</param>
    /// <param name="end">The sample after the last.</param>
    /// <param name="firstOnS">When the drive was first on, seconds.</param>
    public void Add(Trace trace, int end, double firstOnS)
    {
        if (end > Count)
        {
            Add(trace.Slice(Count, end - Count), firstOnS);
        }
    }

    private void Add(ReadOnlySpan<Sample> samples, double firstOnS)
    {
        Rest.Add(samples, firstOnS);
        Lost.Add(samples);
        Count += samples.Length;
    }
}
