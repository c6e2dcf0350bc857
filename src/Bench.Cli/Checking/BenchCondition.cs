using Bench.Devices.Positions;

namespace Bench.Cli.Checking;

/// <summary>All that a check found.</summary>
internal sealed record BenchCondition(
    IReadOnlyList<CheckedDevice> Devices,
    IReadOnlyList<CheckedPosition> Positions,
    IReadOnlyList<SafeStateResult> Outputs,
    IReadOnlyList<CalibrationCheck> Calibrations)
{
    /// <summary>Whether runs can be made as the bench stands: no device or position worse than usable, every output off.</summary>
    public bool CanRun => Outputs.All(o => o.ConfirmedOff)
        && Devices.All(d => d.Graded.Grade <= Grade.Usable)
        && Positions.All(p => p.Graded is null or { Grade: <= Grade.Usable });
}
