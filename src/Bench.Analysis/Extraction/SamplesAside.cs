using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>Stretches of a trace in which hands were at the unit: they say nothing of it as it came in, and stay out of its features.</summary>
internal sealed class SamplesAside
{
    private readonly List<(int First, int Count)> _stretches = [];

    /// <summary>Sets a stretch aside; stretches come in order.</summary>
    public void Add(int first, int count) => _stretches.Add((first, count));

    /// <summary>The rest of a trace.</summary>
    public ReadOnlySpan<Sample> Rest(Trace trace)
    {
        if (_stretches.Count == 0)
        {
            return trace.All;
        }

        List<Sample> rest = new(trace.Count);
        int from = 0;
        foreach ((int first, int count) in _stretches)
        {
            rest.AddRange(trace.Slice(from, first - from));
            from = first + count;
        }

        rest.AddRange(trace.Slice(from, trace.Count - from));
        return rest.ToArray();
    }
}
