using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Records.Runs;

/// <summary>Which runs to list; what is null does not matter.</summary>
public sealed record RunFilter
{
    /// <summary>Serial number, exactly.</summary>
    public string? Serial { get; init; }

    /// <summary>How the serial number begins, exactly.</summary>
    public string? SerialPrefix { get; init; }

    /// <summary>Family, exactly.</summary>
    public string? Family { get; init; }

    /// <summary>How it came out; open runs have no outcome.</summary>
    public RunOutcome? Outcome { get; init; }

    /// <summary>Where the unit goes.</summary>
    public Disposition? Disposition { get; init; }

    /// <summary>What became of the claim.</summary>
    public ClaimOutcome? Claim { get; init; }

    /// <summary>What the field reported.</summary>
    public Symptom? Symptom { get; init; }

    /// <summary>Id of the fault mode that the run's own judgement holds likeliest.</summary>
    public string? LikeliestCause { get; init; }

    /// <summary>Whether the run is open.</summary>
    public bool? Open { get; init; }

    /// <summary>Started at or after.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Started before.</summary>
    public DateTimeOffset? Before { get; init; }

    /// <summary>At most so many, the newest; 1 or more.</summary>
    public int? Most { get; init; }

    /// <summary>How many of the newest to pass over; 0 or more.</summary>
    public int Skip { get; init; }
}
