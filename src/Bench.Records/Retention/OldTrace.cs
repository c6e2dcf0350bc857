namespace Bench.Records.Retention;

/// <summary>A trace file that a policy lets go.</summary>
/// <param name="Run">Its run.</param>
/// <param name="StartedAt">When the run began, UTC.</param>
/// <param name="Serial">Serial number of the unit, as sealed.</param>
/// <param name="File">The file, relative to the data folder.</param>
/// <param name="Bytes">Its length.</param>
public sealed record OldTrace(Guid Run, DateTimeOffset StartedAt, string Serial, string File, long Bytes);
