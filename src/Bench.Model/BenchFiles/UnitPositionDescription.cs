using Bench.Model.Profiles;

namespace Bench.Model.BenchFiles;

/// <summary>One place where a unit can be tested.</summary>
public sealed record UnitPositionDescription
{
    /// <summary>Name, unique in the file.</summary>
    public required string Name { get; init; }

    /// <summary>Drive kind the outputs are wired for.</summary>
    public required DriveKind Drive { get; init; }

    /// <summary>Output that turns towards rising counts; for a commanded drive the output that feeds the unit (<c>power</c>).</summary>
    public required Channel Up { get; init; }

    /// <summary>Output that turns towards falling counts (a coil); null for a single drive.</summary>
    public Channel? Down { get; init; }

    /// <summary>Where the target is written; null unless the drive is commanded.</summary>
    public TargetDescription? Target { get; init; }

    /// <summary>Feedback kind.</summary>
    public required FeedbackKind Feedback { get; init; }

    /// <summary>Where the count or counter is read; null for port switches.</summary>
    public Channel? Count { get; init; }

    /// <summary>For an incremental feedback: how the counter becomes a count; null for any other.</summary>
    public CounterDescription? Counter { get; init; }

    /// <summary>For port switches: at least two; empty for any other.</summary>
    public IReadOnlyList<PortSwitch> Switches { get; init; } = [];

    /// <summary>Index input fixed to the valve shaft; null for none.</summary>
    public Channel? Index { get; init; }

    /// <summary>Emergency-stop input; null for none.</summary>
    public Channel? EmergencyStop { get; init; }

    /// <summary>Supply current meter.</summary>
    public required MeterDescription Current { get; init; }

    /// <summary>Supply voltage meter.</summary>
    public required MeterDescription Voltage { get; init; }
}
