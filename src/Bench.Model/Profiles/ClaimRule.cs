using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Model.Profiles;

/// <summary>A row of the profile's claim table: what becomes of the claim of a judged unit that meets all its conditions. A condition that is null does not matter.</summary>
public sealed record ClaimRule
{
    /// <summary>Where the unit goes.</summary>
    public Disposition? Disposition { get; init; }

    /// <summary>Id of the likeliest fault mode that names one of the failing findings.</summary>
    public string? Cause { get; init; }

    /// <summary>What the field reported.</summary>
    public Symptom? Symptom { get; init; }

    /// <summary>Where the test on moves stands.</summary>
    public SequentialState? Demonstration { get; init; }

    /// <summary>What becomes of the claim.</summary>
    public required ClaimOutcome Outcome { get; init; }

    /// <summary>Whether a unit meets the conditions.</summary>
    public bool Fits(Disposition disposition, string? cause, Symptom symptom, SequentialState demonstration) =>
        (Disposition ?? disposition) == disposition && (Cause ?? cause) == cause
        && (Symptom ?? symptom) == symptom && (Demonstration ?? demonstration) == demonstration;
}
