using System.Diagnostics;

namespace Bench.Model.Moves;

/// <summary>What is true of a kind of stage.</summary>
public static class StageKindExtensions
{
    /// <summary>
    /// Whether a stage of the kind provokes an intermittent fault: it comes after all that tests the unit as it is used, is
    /// run only where it promises to tell something, and its moves are counted apart.
    /// </summary>
    public static bool Provokes(this StageKind kind) => kind switch
    {
        StageKind.Starts or StageKind.LowSupply or StageKind.HighSupply or StageKind.Connector or StageKind.Warm => true,
        StageKind.Supply or StageKind.Homing or StageKind.PortMoves or StageKind.Endurance or StageKind.Uncoupled => false,
        _ => throw new UnreachableException($"a stage of kind {kind}"),
    };
}
