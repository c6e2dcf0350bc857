using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;
using Bench.Running.Safety;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: moves from port to port at the least or the greatest supply that a unit is tested at. One that only just starts
/// stays at the least; electronics and insulation that only just hold give way at the greatest.
/// </summary>
internal sealed class SupplyMovesStage(
    StageKind kind, Profile profile, SupplyVoltage supply, ProvokedMoves provoked, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => kind;

    /// <inheritdoc/>
    public string? Unavailable => supply.Unavailable(VoltageV);

    private double VoltageV => kind == StageKind.LowSupply ? supply.LowV : supply.HighV;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, FormattableString.Invariant($"moves at {VoltageV:0.0} V, to provoke the fault"));
        await supply.SetAsync(VoltageV, cancel);
        string? ended = await provoked.RunAsync(stage, made => EnduranceTour.Command(profile, stage, made, moves.Port) with { SupplyV = VoltageV }, cancel);
        await supply.RestoreAsync(cancel);
        return ended;
    }
}
