using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Running.Landing;
using Bench.Running.Moves;
using Bench.Running.Safety;

namespace Bench.Running.Stages;

/// <summary>Turns in one direction, then to the first port; takes the home of a counter from the index where there is one.</summary>
internal sealed class HomingStage(
    Profile profile, RunGuard guard, Trace trace, RunBook book, RunClock clock, IndexHoming? homing, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => StageKind.Homing;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "begins");
        DriveDirection direction = DriveDirection.Up;
        double endS = clock.NowS + stage.MostS;
        int revolutions = (int)Math.Round(stage.Revolutions);
        if (homing is not null)
        {
            if (await HomeByIndexAsync(stage, homing, Math.Max(revolutions, IndexHoming.Revolutions), endS, cancel) is { } homeless)
            {
                return homeless;
            }

            revolutions = 0;
        }

        if (profile.Drive == DriveKind.Commanded)
        {
            // It can't be told to turn on and on. By way of another port it surely moves.
            if (await moves.MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, profile.Ports[1], 0, stage.SettleMs / 1000), cancel) is { } gone)
            {
                return gone;
            }

            revolutions = 0;
        }

        // By switches whole revolutions are counted at the port they end at.
        int onTheWay = profile.Feedback == FeedbackKind.Switches ? revolutions : 0;
        for (int tries = 0; tries < Math.Max(stage.MostMoves, 2) && clock.NowS < endS; tries++)
        {
            if (revolutions > onTheWay && tries == 0)
            {
                if (await moves.MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, null, revolutions, stage.SettleMs / 1000), cancel) is { } lost)
                {
                    return lost;
                }
            }

            if (await moves.MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, profile.Ports[0], tries == 0 ? onTheWay : 0, stage.SettleMs / 1000), cancel) is { } ended)
            {
                return ended;
            }

            if (moves.Moves[^1].End == MoveEnd.Landed)
            {
                return null;
            }

            direction = Opposite(direction);
        }

        return null;
    }

    // Twice at most: a reading may be lost just at an edge.
    private async ValueTask<string?> HomeByIndexAsync(Stage stage, IndexHoming homing, int revolutions, double endS, CancellationToken cancel)
    {
        const int tries = 2;
        for (int attempt = 1; attempt <= tries && clock.NowS < endS && homing.HasIndex; attempt++)
        {
            MoveCommand command = new(stage.Kind, DriveDirection.Up, null, null, revolutions, stage.SettleMs / 1000, Relative: true);
            if (await moves.MakeAsync(stage, command, cancel) is { } ended)
            {
                return ended;
            }

            if (homing.Take(trace, moves.Moves[^1]) is { } taken)
            {
                book.Write(RunEventKind.Note, taken);

                // Counts have moved and the unit has not.
                guard.Off();
                return null;
            }
        }

        return homing.HasIndex
            ? "the index did not come, so the counter's home is not known and no port can be told"
            : "the bench has no index input, so the counter's home is not known and no port can be told";
    }

    private DriveDirection Opposite(DriveDirection direction) =>
        profile.CanReverse && direction == DriveDirection.Up ? DriveDirection.Down : DriveDirection.Up;
}
