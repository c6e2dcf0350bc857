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

    /// <summary>Name of a stage that provokes, as it is told.</summary>
    /// <exception cref="ArgumentException">The stage does not provoke.</exception>
    public static string Title(this StageKind kind) => kind switch
    {
        StageKind.Starts => "short starts",
        StageKind.LowSupply => "least supply",
        StageKind.HighSupply => "greatest supply",
        StageKind.Connector => "connector moved by hand",
        StageKind.Warm => "warm winding",
        _ => throw new ArgumentException($"a {kind} stage provokes nothing", nameof(kind)),
    };
}
