namespace Bench.Model.Traces;

/// <summary>The samples of a run, in order of arrival. Grows at the end; what is there never changes.</summary>
public sealed class Trace
{
    private readonly List<Sample> _samples = [];

    /// <summary>Number of samples.</summary>
    public int Count => _samples.Count;

    /// <summary>The sample at an index from 0.</summary>
    public Sample this[int index] => _samples[index];

    /// <summary>Adds a sample.</summary>
    public void Add(in Sample sample) => _samples.Add(sample);

    /// <summary>All samples.</summary>
    public ReadOnlySpan<Sample> All => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_samples);

    /// <summary>A run of samples. The span is good until the next <see cref="Add"/>.</summary>
    /// <param name="first">Index of the first sample.</param>
    /// <param name="count">How many.</param>
    public ReadOnlySpan<Sample> Slice(int first, int count) => All.Slice(first, count);
}
