using Bench.Analysis.Extraction;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>Makes the moves of a stage that provokes, one after the other, until the stage's own test has an answer or its limits are reached.</summary>
internal sealed class ProvokedMoves(RunExtraction extraction, RunClock clock, RunBook book, MoveSequence moves)
{
    /// <summary>Moves made after one without current: a tour turns either way again within them.</summary>
    private const int MostLooks = 4;

    /// <summary>Makes them.</summary>
    /// <param name="stage">The stage and its limits.</param>
    /// <param name="next">The move to make after so many.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Why no further stage makes sense; null when one does.</returns>
    public async ValueTask<string?> RunAsync(Stage stage, Func<int, MoveCommand> next, CancellationToken cancel)
    {
        SequentialTest test = extraction.Provoked(stage.Kind);
        double endS = clock.NowS + stage.MostS;
        for (int made = 0; made < stage.MostMoves && clock.NowS < endS && test.State == SequentialState.Continue; made++)
        {
            if (await moves.MakeAsync(stage, next(made), cancel) is { } ended)
            {
                return ended;
            }

            if (test.State != SequentialState.Continue && await LookForCurrentAsync(stage, made + 1, next, cancel) is { } still)
            {
                return still;
            }
        }

        return null;
    }

    // A contact of the bench's that has burnt looks like a motor circuit that opened, but never passes current again.
    private async ValueTask<string?> LookForCurrentAsync(Stage stage, int made, Func<int, MoveCommand> next, CancellationToken cancel)
    {
        Move failed = moves.Moves[^1];
        if (failed.End != MoveEnd.NoCurrent || stage.Kind == StageKind.Warm)
        {
            return null;
        }

        book.Write(RunEventKind.Note, $"move {failed.Number} passed no current: up to {MostLooks} more show whether it comes back");
        for (int looked = 0; looked < MostLooks; looked++)
        {
            if (await moves.MakeAsync(stage, next(made + looked), cancel) is { } ended)
            {
                return ended;
            }

            if (moves.Moves[^1] is { End: MoveEnd.Landed } back && back.Direction == failed.Direction)
            {
                return null;
            }
        }

        return null;
    }
}
