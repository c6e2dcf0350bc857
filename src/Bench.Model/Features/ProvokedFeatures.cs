using System.Diagnostics;
using Bench.Model.Moves;

namespace Bench.Model.Features;

/// <summary>Names of the features of stages that provoke an intermittent fault.</summary>
public static class ProvokedFeatures
{
    /// <summary>Short starts that failed.</summary>
    public const string FailedStarts = "provoked.failed_starts";

    /// <summary>All of them. A stage that was not run has none, and nothing is missing for that.</summary>
    public static IReadOnlyList<string> All { get; } = [FailedStarts];

    /// <summary>The feature that a stage which provokes feeds.</summary>
    /// <exception cref="ArgumentException">The stage does not provoke.</exception>
    public static string Of(StageKind kind) => kind switch
    {
        StageKind.Starts => FailedStarts,
        _ when !kind.Provokes() => throw new ArgumentException($"a {kind} stage provokes nothing", nameof(kind)),
        _ => throw new UnreachableException($"a stage of kind {kind}"),
    };
}
