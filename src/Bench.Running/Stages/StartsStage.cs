using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: many short starts. A brush that sticks or a dead part of the commutator keeps a motor from starting only
/// where it came to rest, so starts are made from ever other angles.
/// </summary>
internal sealed class StartsStage(ShortStarts starts, ProvokedMoves provoked, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => StageKind.Starts;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "short starts, to provoke the fault");
        return await provoked.RunAsync(stage, made => starts.Command(stage.Kind, made, stage.SettleMs / 1000), cancel);
    }
}
