using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>Every ordered pair of ports, each way the drive allows.</summary>
internal sealed class PortMovesStage(Profile profile, RunClock clock, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => StageKind.PortMoves;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "begins");
        double endS = clock.NowS + stage.MostS;
        int made = 0;
        foreach ((int to, DriveDirection direction) in PortTour.Make(profile.Ports.Count, profile.CanReverse))
        {
            if (made++ >= stage.MostMoves || clock.NowS >= endS)
            {
                return null;
            }

            if (await moves.ToPortAsync(stage, to, direction, cancel) is { } ended)
            {
                return ended;
            }
        }

        return null;
    }
}
