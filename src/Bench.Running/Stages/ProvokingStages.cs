using Bench.Analysis.Extraction;
using Bench.Analysis.Provoking;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
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
                book.Write(RunEventKind.Note, $"stage {BenchJson.Word(stage.Kind)} is left out: {why}");
                _left.Remove(stage);
            }
        }

        while (_left.Count > 0 && Sound && StageChoice.Next(_left, soFar(), profile, symptom) is { } choice)
        {
            book.Write(RunEventKind.Note, choice.Words);
            _left.Remove(choice.Stage);
            sampler.Flush();
            extraction.SetAside(trace.Count);
            if (await runners.Of(choice.Stage.Kind).RunAsync(choice.Stage, cancel) is { } ended)
            {
                return ended;
            }
        }

        return null;
    }

    // A unit that fails by itself needs no provoking, and one that does not answer or turn can't be.
    private bool Sound =>
        extraction.Evidence is { Sequential: SequentialState.Shown or SequentialState.Truncated, StillInARow: 0 } && sampler.Position.Heard;
}
