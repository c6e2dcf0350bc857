using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Moves;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>
/// Whether current comes back to a motor that draws none any more. An open winding and the bench's own relay, wire or fuse look
/// alike; what comes back the same way round is worn, loose or warm, and the unit's, for a blown fuse stays blown. Tries at once, where
/// a brush hung, and then after ever longer rests, in which a warm winding cools.
/// </summary>
internal sealed class CurrentReturn(MoveSequence moves, Resting resting, RunClock clock, RunBook book, StageReport report)
{
    /// <summary>Rests before the tries, seconds; common practice, no source: a small motor's winding has cooled by then, its housing has not.</summary>
    private static readonly double[] RestsS = [0, 0, 10, 20, 40, 80];

    /// <summary>Tries until current flows.</summary>
    /// <param name="stage">The stage the moves belong to.</param>
    /// <param name="next">The move to make after so many tries.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Why no further stage makes sense; null when current flows.</returns>
    public async ValueTask<string?> SeekAsync(Stage stage, Func<int, MoveCommand> next, CancellationToken cancel)
    {
        double beganS = clock.NowS;
        HashSet<DriveDirection> missed = [.. moves.Moves.Reverse().TakeWhile(m => m.End == MoveEnd.NoCurrent).Select(m => m.Direction)];
        int tried = 0;
        foreach (double restS in RestsS)
        {
            if (restS > 0)
            {
                report.Tell(stage, FormattableString.Invariant($"no current: rests {restS:0} s, then starts again; hands stay off"));
                await resting.ForAsync(restS, cancel);
            }


            // Current the other way round tells nothing: a motor passes it both ways or not at all, a relay does not.
            while (true)
            {
                string? ended = await moves.MakeAsync(stage, next(tried++), cancel);
                Move last = moves.Moves[^1];
                if (last.End == MoveEnd.NoCurrent)
                {
                    missed.Add(last.Direction);
                    break;
                }

                if (missed.Contains(last.Direction))
                {
                    book.Write(RunEventKind.Note, FormattableString.Invariant($"current flows again, {clock.NowS - beganS:0} s after it was missed: what opened is the unit's"));
                    return ended;
                }

                if (ended is not null)
                {
                    return ended;
                }
            }
        }

        return FormattableString.Invariant($"no current flows any more, after {clock.NowS - beganS:0} s of rests and tries either");
    }
}
