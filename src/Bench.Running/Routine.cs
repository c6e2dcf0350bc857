using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Moves;
using Bench.Running.Stages;

namespace Bench.Running;

/// <summary>
/// Walks the stages of a profile: in order until there is evidence enough, then those that provoke a fault as far as they
/// promise to tell something, and last the one that takes the unit apart.
/// </summary>
internal sealed class Routine(
    Profile profile, StageRunners runners, ProvokingStages provoking, MoveSequence moves, CurrentReturn current, RunBook book)
{
    /// <summary>Runs all stages, or as many as make sense.</summary>
    public async ValueTask RunAsync(CancellationToken cancel)
    {
        string? ended = null;
        foreach (Stage stage in profile.Routine.Where(s => s.Kind != StageKind.Uncoupled && !s.Kind.Provokes()))
        {
            ended = await runners.Of(stage.Kind).RunAsync(stage, cancel);
            if (ended is not null)
            {
                if (LostItsCurrent(stage))
                {
                    await current.SeekAsync(stage, tried => EnduranceTour.Command(profile, stage, tried, moves.Port), cancel);
                }

                break;
            }
        }

        ended = await provoking.RunAsync(cancel) ?? ended;
        if (ended is not null)
        {
            book.Write(RunEventKind.Note, $"no further stages: {ended}");
        }

        // A unit that does not turn ends the stages that need it to, and is the very one this stage is for.
        if (profile.Routine.FirstOrDefault(s => s.Kind == StageKind.Uncoupled) is { } last)
        {
            await runners.Of(last.Kind).RunAsync(last, cancel);
        }
    }

    // One that never drew any is another matter: rests would not bring back what was not there.
    private bool LostItsCurrent(Stage stage) =>
        stage.Kind is StageKind.PortMoves or StageKind.Endurance
        && moves.Moves is [.., { End: MoveEnd.NoCurrent }] && moves.Moves.Any(m => m.End == MoveEnd.Landed);
}
