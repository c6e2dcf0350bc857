using Bench.Model.Traces;

namespace Bench.Records.Traces;

/// <summary>What the store takes as a sample: a finite time, and meters that are finite or, as NaN, not sampled.</summary>
internal static class SampleRule
{
    /// <summary>Refuses what is no sample.</summary>
    /// <exception cref="ArgumentException">It is none.</exception>
    public static void Check(in Sample sample)
    {
        if (!double.IsFinite(sample.TimeS) || double.IsInfinity(sample.CurrentA) || double.IsInfinity(sample.VoltageV))
        {
            throw new ArgumentException($"a sample must have a finite time, current and voltage, or none (NaN): {sample}", nameof(sample));
        }
    }
}
