using Bench.Analysis.Extraction;
using Bench.Analysis.Provoking;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>
/// Provokes a fault that did not come by itself: of the stages that can, runs the one that promises most information a
/// minute, looks at what it showed, and goes on until none promises enough.
/// </summary>
internal sealed class ProvokingStages(
    Profile profile, StageRunners runners, RunExtraction extraction, Sampler sampler, Trace trace, RunBook book,
    Func<RunFeatures> soFar, Symptom symptom)
{
    private readonly List<Stage> _left = [.. profile.Routine.Where(s => s.Kind.Provokes())];

    /// <summary>Runs those that are worth it.</summary>
    /// <returns>Why no further stage makes sense; null when one does.</returns>
    public async ValueTask<string?> RunAsync(CancellationToken cancel)
    {
        foreach (Stage stage in _left.ToList())
        {
            if (runners.Of(stage.Kind).Unavailable is { } why)
            {
                LeaveOut(why, s => s == stage);
            }
        }

        while (_left.Count > 0)
        {
            if (extraction.Evidence.Sequential == SequentialState.Refuted)
            {
                // It is moved no more; what a hand at its connector shows may tell which of its causes it is.
                LeaveOut("the unit fails by itself and needs no provoking", s => s.Kind != StageKind.Connector);
            }

            string? unsound = Unsound;
            string because = "";
            StageChoice? choice = unsound is null ? StageChoice.Next(_left, soFar(), profile, symptom, out because) : null;
            if (choice is null)
            {
                LeaveOut(unsound ?? because, _ => true);
                return null;
            }

            book.Write(RunEventKind.Note, choice.Words);
            _left.Remove(choice.Stage);
            sampler.Flush();
            extraction.SetAside(trace.Count);
            if (await runners.Of(choice.Stage.Kind).RunAsync(choice.Stage, cancel) is { } ended)
            {
                LeaveOut(ended, _ => true);
                return ended;
            }
        }

        return null;
    }

    private void LeaveOut(string because, Predicate<Stage> which)
    {
        foreach (Stage stage in _left.Where(s => which(s)))
        {
            book.Write(RunEventKind.Note, StageNotes.LeftOut(stage.Kind, because));
        }

        _left.RemoveAll(which);
    }

    private string? Unsound => extraction.Evidence switch
    {
        { StillInARow: > 0 } => "the unit did not turn, so nothing can be provoked in it",
        { Sequential: SequentialState.Continue } => "the demonstration, which comes first, was not completed",
        _ when !sampler.Position.Heard => "the feedback does not answer",
        _ => null,
    };
}
