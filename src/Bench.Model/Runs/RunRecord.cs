using System.Text.Json.Serialization;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;

namespace Bench.Model.Runs;

/// <summary>Everything about one ended run but its trace.</summary>
public sealed record RunRecord
{
    /// <summary>What was known when it began.</summary>
    public required RunStart Start { get; init; }

    /// <summary>When it ended.</summary>
    public required DateTimeOffset EndedAt { get; init; }

    /// <summary>How it came out.</summary>
    public required RunOutcome Outcome { get; init; }

    /// <summary>Why it was aborted; null unless it was.</summary>
    public AbortReason? Abort { get; init; }

    /// <summary>What went wrong and what to do, in plain words; null unless aborted.</summary>
    public string? AbortText { get; init; }

    /// <summary>Whether every output was confirmed off by read-back at the end; true where none was touched.</summary>
    public required bool OutputsConfirmedOff { get; init; }

    /// <summary>Events in order.</summary>
    public required IReadOnlyList<RunEvent> Events { get; init; }

    /// <summary>Moves in order.</summary>
    public required IReadOnlyList<Move> Moves { get; init; }

    /// <summary>Features; null when the run ended before there were any.</summary>
    public RunFeatures? Features { get; init; }

    /// <summary>The verdict; null when aborted.</summary>
    public Judgement? Judgement { get; init; }

    /// <summary>Samples in the trace.</summary>
    public required int Samples { get; init; }

    /// <summary>Whether the unit was judged by its arrival inspection alone: nothing was connected, nothing energised.</summary>
    [JsonIgnore]
    public bool IsInspectionOnly => Judgement is not null && Features is null;
}
