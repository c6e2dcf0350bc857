using Bench.Model.Features;

namespace Bench.Running.Sampling;

/// <summary>How often a position could be read in a rehearsal.</summary>
/// <param name="Position">Name of the position.</param>
/// <param name="Attempts">Position readings tried.</param>
/// <param name="LengthS">How long the rehearsal took, seconds.</param>
/// <param name="Times">Good readings and the times between them.</param>
public sealed record RehearsedPolling(string Position, int Attempts, double LengthS, SamplingTimes Times)
{
    /// <summary>Good position readings per second.</summary>
    public double PositionRateHz => Times.Position.Readings / LengthS;

    /// <summary>Good meter readings per second.</summary>
    public double MeterRateHz => Times.Meters.Readings / LengthS;
}
