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
}
