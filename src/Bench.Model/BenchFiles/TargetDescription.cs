namespace Bench.Model.BenchFiles;

/// <summary>Where a commanded unit takes its target, and how a count of its ring is written there.</summary>
/// <param name="Register">The holding register.</param>
/// <param name="ScaleCounts">Counts of the ring per raw unit, above 0.</param>
public sealed record TargetDescription(Channel Register, double ScaleCounts)
{
    /// <summary>What is written for a count.</summary>
    public int Raw(int count) => (int)Math.Round(count / ScaleCounts);

    /// <summary>The count that a raw value stands for.</summary>
    public double Count(int raw) => raw * ScaleCounts;
}
