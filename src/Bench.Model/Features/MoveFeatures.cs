using Bench.Model.Instruments;
using Bench.Model.Moves;

namespace Bench.Model.Features;

/// <summary>What one move's slice of the trace says. Null where the slice cannot say it.</summary>
public sealed record MoveFeatures
{
    /// <summary>The move's number.</summary>
    public required int Number { get; init; }

    /// <summary>Its stage.</summary>
    public required StageKind Stage { get; init; }

    /// <summary>Port it began at.</summary>
    public string? FromPort { get; init; }

    /// <summary>Port it was commanded to.</summary>
    public string? ToPort { get; init; }

    /// <summary>Direction.</summary>
    public required DriveDirection Direction { get; init; }

    /// <summary>Why the drive was switched off.</summary>
    public required MoveEnd End { get; init; }

    /// <summary>Seconds the drive was on.</summary>
    public required double OnS { get; init; }

    /// <summary>Count at rest after settling.</summary>
    public int? LandingCount { get; init; }

    /// <summary>Landing reading minus target, circular, counts (C1).</summary>
    public double? LandingErrorCounts { get; init; }

    /// <summary>The bench's own share of that error: late or early switching and its prediction, counts.</summary>
    public double? BenchErrorCounts { get; init; }

    /// <summary>The unit's share: landing error minus the bench's, counts.</summary>
    public double? UnitErrorCounts { get; init; }

    /// <summary>Standard uncertainty of <see cref="UnitErrorCounts"/>, counts.</summary>
    public double? UnitErrorUncertainty { get; init; }

    /// <summary>Travel after switching off, counts, signed.</summary>
    public double? CoastCounts { get; init; }

    /// <summary>Speed while turning steadily, counts per second, signed.</summary>
    public double? SpeedCountsPerS { get; init; }

    /// <summary>Median current while turning steadily, amperes.</summary>
    public double? RunningCurrentA { get; init; }

    /// <summary>Robust standard deviation of current about its course, amperes.</summary>
    public double? CurrentNoiseA { get; init; }

    /// <summary>Greatest current in the move, amperes.</summary>
    public double? PeakCurrentA { get; init; }

    /// <summary>Median supply voltage while turning, volts.</summary>
    public double? LoadedVoltageV { get; init; }

    /// <summary>Electrical energy of the move, joules.</summary>
    public double? EnergyJ { get; init; }

    /// <summary>Times current vanished while the drive was on and came back.</summary>
    public int CurrentInterruptions { get; init; }

    /// <summary>Times the current meter showed nothing while the unit kept its speed.</summary>
    public int MeterGaps { get; init; }

    /// <summary>Episodes of lost feedback in the move.</summary>
    public int FeedbackDropouts { get; init; }

    /// <summary>Greatest persistent jump of the count that speed does not explain, counts.</summary>
    public double? JumpCounts { get; init; }

    /// <summary>Middle of the index arc as the encoder counted it, unwrapped to near the first; one entry per pass.</summary>
    public IReadOnlyList<double> IndexCounts { get; init; } = [];

    /// <summary>Whether the move did what was commanded, for the unit's part; the sequential test counts these.</summary>
    public required bool Passed { get; init; }

    /// <summary>Whether the move counts in the sequential test at all (a bench fault does not).</summary>
    public required bool Counts { get; init; }

    /// <summary>Why it did not pass, in plain words.</summary>
    public string? FailedBecause { get; init; }
}
