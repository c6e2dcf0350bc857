namespace Bench.Model.BenchFiles;

/// <summary>
/// A board's own watchdog: a register, or a number set by a line, that holds a time. While it is not 0 the board switches all its outputs off when
/// no exchange with it came for that time; any exchange feeds it (S6).
/// </summary>
public sealed record WatchdogDescription
{
    /// <summary>Holding register that takes the time, 0 to 65535; 0 in it means not armed. Without meaning where it has lines.</summary>
    public int HoldingRegister { get; init; }

    /// <summary>How a board that talks lines has it armed and asked; null for a register.</summary>
    public WatchdogLines? Lines { get; init; }

    /// <summary>What one count of the time is worth, milliseconds.</summary>
    public required double UnitMs { get; init; }

    /// <summary>Time to arm it with, milliseconds.</summary>
    public required double TimeoutMs { get; init; }

    /// <summary>What the time is set to, counts, 1 to 65535.</summary>
    public ushort Value => (ushort)Math.Round(TimeoutMs / UnitMs);
}
