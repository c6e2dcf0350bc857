using Bench.Model.Moves;

namespace Bench.Running.Stages;

/// <summary>A runner for every kind of stage.</summary>
internal sealed class StageRunners
{
    private readonly Dictionary<StageKind, IStageRunner> _byKind;

    /// <summary>Takes one runner of each kind.</summary>
    /// <exception cref="ArgumentException">A kind has none, or two: a stage of it would not do what its profile says.</exception>
    public StageRunners(params IReadOnlyList<IStageRunner> runners)
    {
        _byKind = runners.ToDictionary(r => r.Kind);
        if (Enum.GetValues<StageKind>().FirstOrDefault(k => !_byKind.ContainsKey(k), (StageKind)(-1)) is var missing and >= 0)
        {
            throw new ArgumentException($"no runner for stages of kind {missing}", nameof(runners));
        }
    }

    /// <summary>The runner of a kind.</summary>
    public IStageRunner Of(StageKind kind) => _byKind[kind];
}
