using System.Text.Json.Serialization;
using Bench.Model.Moves;

namespace Bench.Model.Profiles;

/// <summary>One stage of a routine, with its limits.</summary>
public sealed record Stage
{
    /// <summary>What it does.</summary>
    public required StageKind Kind { get; init; }

    /// <summary>Longest time, seconds.</summary>
    public required double MostS { get; init; }

    /// <summary>Greatest number of moves; 0 in a stage that has none.</summary>
    public int MostMoves { get; init; }

    /// <summary>Whole revolutions to turn (homing).</summary>
    public double Revolutions { get; init; }

    /// <summary>Rest after each move before the position counts as landed, milliseconds.</summary>
    public double SettleMs { get; init; }

    /// <summary>Share of failing moves that is still good, of a stage that provokes; null for any other.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? P0 { get; init; }

    /// <summary>Share of failing moves that must be found, of a stage that provokes; null for any other.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? P1 { get; init; }

    /// <summary>Estimated temperature of the winding from which moves are tested, degrees Celsius, of a warm stage; null for any other.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? WarmCelsius { get; init; }

    /// <summary>The sequential test on the moves of a stage that provokes: its own shares and truncation, the risks of the demonstration.</summary>
    /// <exception cref="InvalidOperationException">The stage has no shares: it does not provoke.</exception>
    public Demonstration Plan(Demonstration demonstration) => demonstration with
    {
        P0 = P0 ?? throw new InvalidOperationException($"a {Kind} stage has no test of its own"),
        P1 = P1 ?? throw new InvalidOperationException($"a {Kind} stage has no test of its own"),
        MostMoves = MostMoves,
    };
}
