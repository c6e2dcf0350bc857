using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Running.Stages;

/// <summary>Runs the stages of one kind.</summary>
internal interface IStageRunner
{
    /// <summary>The kind.</summary>
    StageKind Kind { get; }

    /// <summary>Why a stage can't be run on this bench, in plain words; null when it can.</summary>
    string? Unavailable => null;

    /// <summary>Runs a stage.</summary>
    /// <param name="stage">Its limits.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Why no further stage makes sense; null when one does.</returns>
    ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel);
}
