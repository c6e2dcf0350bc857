using Bench.Model.Instruments;

namespace Bench.Model.Moves;

/// <summary>One commanded travel, and where its samples lie in the run's trace.</summary>
public sealed record Move
{
    /// <summary>Number within the run, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>The stage it belongs to.</summary>
    public required StageKind Stage { get; init; }

    /// <summary>Name of the port it began at; null when it began nowhere in particular.</summary>
    public string? FromPort { get; init; }

    /// <summary>Name of the port it was commanded to; null when it only turns.</summary>
    public string? ToPort { get; init; }

    /// <summary>Direction of travel.</summary>
    public required DriveDirection Direction { get; init; }

    /// <summary>The count commanded, 0 to N - 1.</summary>
    public required int TargetCount { get; init; }

    /// <summary>Whether the counter's home was not known yet: counts of this move are right against each other only.</summary>
    public bool Relative { get; init; }

    /// <summary>Counts to travel from where it began, signed; more than N for whole revolutions.</summary>
    public required int TravelCounts { get; init; }

    /// <summary>Seconds since the run began when the drive was commanded on.</summary>
    public required double DriveOnS { get; init; }

    /// <summary>Seconds since the run began when the drive was commanded off (the write was sent).</summary>
    public required double DriveOffS { get; init; }

    /// <summary>Seconds since the run began when the move was taken as at rest.</summary>
    public required double SettledS { get; init; }

    /// <summary>Why the drive was switched off.</summary>
    public required MoveEnd End { get; init; }

    /// <summary>Coast after the off command that the bench expected when it chose the instant, counts, signed; null when it had no basis.</summary>
    public double? ExpectedCoastCounts { get; init; }

    /// <summary>
    /// Exchanges with the bench's own devices that failed while the drive was switched off. Not 0: the unit travelled
    /// longer than commanded by no fault of its own, so its coast and landing say nothing of it.
    /// </summary>
    public int OffFailures { get; init; }

    /// <summary>Index of the move's first sample in the trace (a little before drive on).</summary>
    public required int FirstSample { get; init; }

    /// <summary>Number of its samples (to the end of settling).</summary>
    public required int SampleCount { get; init; }
}
