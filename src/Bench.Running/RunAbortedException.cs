using Bench.Model.Runs;

namespace Bench.Running;

/// <summary>Carries the one reason a run is aborted from where it is found to where the run ends.</summary>
internal sealed class RunAbortedException(AbortReason reason, string text) : Exception(text)
{
    /// <summary>The reason.</summary>
    public AbortReason Reason { get; } = reason;
}
