using Bench.Model.Judging;

namespace Bench.Records.Runs;

/// <summary>Which runs to list; what is null does not matter.</summary>
public sealed record RunFilter
{
    /// <summary>Serial number, exactly.</summary>
    public string? Serial { get; init; }

    /// <summary>Family, exactly.</summary>
    public string? Family { get; init; }

    /// <summary>How it came out; open runs have no outcome.</summary>
    public RunOutcome? Outcome { get; init; }

    /// <summary>Where the unit goes.</summary>
    public Disposition? Disposition { get; init; }

    /// <summary>Whether the run is open.</summary>
    public bool? Open { get; init; }

    /// <summary>Started at or after.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Started before.</summary>
    public DateTimeOffset? Before { get; init; }

    /// <summary>At most so many, the newest; 1 or more.</summary>
    public int? Most { get; init; }
}
