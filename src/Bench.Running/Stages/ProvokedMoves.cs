using Bench.Analysis.Extraction;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>Makes the moves of a stage that provokes, one after the other, until the stage's own test has an answer or its limits are reached.</summary>
internal sealed class ProvokedMoves(RunExtraction extraction, RunClock clock, MoveSequence moves, CurrentReturn current)
{
    /// <summary>Makes them.</summary>
    /// <param name="stage">The stage and its limits.</param>
    /// <param name="next">The move to make after so many.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Why no further stage makes sense; null when one does.</returns>
    public async ValueTask<string?> RunAsync(Stage stage, Func<int, MoveCommand> next, CancellationToken cancel)
    {
        SequentialTest test = extraction.Provoked(stage.Kind);
        double endS = clock.NowS + stage.MostS;
        int made = 0;
        for (; made < stage.MostMoves && clock.NowS < endS && test.State == SequentialState.Continue; made++)
        {
            if (await moves.MakeAsync(stage, next(made), cancel) is { } ended)
            {
                return ended;
            }
        }

        return made > 0 && moves.Moves[^1].End == MoveEnd.NoCurrent ? await current.SeekAsync(stage, tried => next(made + tried), cancel) : null;
    }
}
