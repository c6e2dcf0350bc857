using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Records.Runs;

/// <summary>One line of a list of runs.</summary>
/// <param name="Id">The run's id.</param>
/// <param name="StartedAt">When it began, UTC.</param>
/// <param name="Serial">Serial number of the unit, as it stands after corrections.</param>
/// <param name="Family">Family of the unit.</param>
/// <param name="Simulated">Whether it was simulated.</param>
/// <param name="Open">Whether it is not sealed: still running, or its program died and nobody has recovered it yet.</param>
/// <param name="Outcome">How it came out; null while open.</param>
/// <param name="Disposition">Where the unit goes; null unless judged.</param>
/// <param name="Claim">What became of the claim; null when there is no judgement.</param>
/// <param name="Symptom">What the field reported.</param>
/// <param name="LikeliestCause">Id of the likeliest fault mode; null when there is no judgement, or none is likelier than others.</param>
public sealed record RunSummary(
    Guid Id, DateTimeOffset StartedAt, string Serial, string Family, bool Simulated, bool Open,
    RunOutcome? Outcome, Disposition? Disposition, ClaimOutcome? Claim, Symptom? Symptom, string? LikeliestCause)
{
    /// <summary>Whether a fact of its return was set right later.</summary>
    public bool Corrected { get; init; }

    /// <summary>Whether a person signed it off.</summary>
    public SignOffState SignedOff { get; init; }
}
