using System.Text.Json.Serialization;

namespace Bench.Model.Profiles;

/// <summary>
/// What a unit must show before "no fault was found" is evidence: a sequential test on moves and cover of the ring (C11, C5).
/// </summary>
public sealed record Demonstration
{
    /// <summary>Share of failing moves that is still good, 0 to 1.</summary>
    public required double P0 { get; init; }

    /// <summary>Share of failing moves that must be found, above <see cref="P0"/>, below 1.</summary>
    public required double P1 { get; init; }

    /// <summary>Chance of failing a unit at <see cref="P0"/>.</summary>
    public required double Alpha { get; init; }

    /// <summary>Chance of passing a unit at <see cref="P1"/>.</summary>
    public required double Beta { get; init; }

    /// <summary>Truncation: the most moves the sequential test may take.</summary>
    public required int MostMoves { get; init; }

    /// <summary>Moves that show a unit which never fails: passes alone carry the path to its lower boundary (Wald 1947).</summary>
    [JsonIgnore]
    public int FewestMoves => (int)Math.Ceiling(Math.Log(Beta / (1 - Alpha)) / Math.Log((1 - P1) / (1 - P0)));

    /// <summary>Share of the ring that must be tested for missed sensors, 0 to 1.</summary>
    public required double RingCoverage { get; init; }

    /// <summary>Chance, over the whole ring, of calling a healthy sensor missed.</summary>
    public required double MissedSensorAlpha { get; init; }
}
