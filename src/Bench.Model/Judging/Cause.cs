namespace Bench.Model.Judging;

/// <summary>A physical fault mode with its probability given the findings (C13).</summary>
/// <param name="Id">Id of the fault mode in the profile.</param>
/// <param name="Name">Name in plain words.</param>
/// <param name="Probability">Posterior probability, 0 to 1.</param>
public sealed record Cause(string Id, string Name, double Probability)
{
    /// <summary>The findings that speak most for it and against it, strongest first; empty in records of before they were kept.</summary>
    public IReadOnlyList<CauseEvidence> Evidence { get; init; } = [];
}
