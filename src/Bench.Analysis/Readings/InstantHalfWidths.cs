namespace Bench.Analysis.Readings;

/// <summary>Half-widths of the sampling instants of good readings, drive on, seconds. A trace does not hold them, so whoever samples keeps them.</summary>
public sealed class InstantHalfWidths
{
    /// <summary>Of position readings.</summary>
    public IList<double> Position { get; } = [];

    /// <summary>Of meter readings.</summary>
    public IList<double> Meters { get; } = [];
}
