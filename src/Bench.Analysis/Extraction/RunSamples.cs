using Bench.Analysis.Feedback;
using Bench.Analysis.Readings;
using Bench.Analysis.Supply;
using Bench.Analysis.Switches;
using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>What is gathered from all samples of a run, each seen once, in moves and between them.</summary>
/// <param name="switches">Whether the feedback is port switches.</param>
internal sealed class RunSamples(bool switches)
{
    /// <summary>Samples seen.</summary>
    public int Count { get; private set; }

    /// <summary>What was read at rest.</summary>
    public RestReadings Rest { get; } = new();

    /// <summary>Readings lost.</summary>
    public LostReadingsTally Lost { get; } = new(null);

    /// <summary>Answers of port switches; null for a unit that counts.</summary>
    public SwitchAnswers? Switches { get; } = switches ? new SwitchAnswers() : null;

    /// <summary>Adds the next samples.</summary>
    /// <param name="samples">Samples in order.</param>
    /// <param name="firstOnS">When the drive was first on, seconds.</param>
    public void Add(ReadOnlySpan<Sample> samples, double firstOnS)
    {
        while (!samples.IsEmpty)
        {
            ReadOnlySpan<Sample> block = samples[..Math.Min(SampleMarks.Most, samples.Length)];
            Add(block, new SampleMarks(block), firstOnS);
            samples = samples[block.Length..];
        }
    }

    /// <summary>The same of a block whose marks are known.</summary>
    public void Add(ReadOnlySpan<Sample> block, in SampleMarks marks, double firstOnS)
    {
        Rest.Add(block, marks, firstOnS);
        Lost.Add(block, marks);
        Switches?.Add(block);
        Count += block.Length;
    }
}
