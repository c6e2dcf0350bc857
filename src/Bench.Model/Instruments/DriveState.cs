namespace Bench.Model.Instruments;

/// <summary>What the drive outputs are known to be.</summary>
public enum DriveState : byte
{
    /// <summary>No output is on.</summary>
    Off = 0,

    /// <summary>The output towards rising counts is on.</summary>
    Up = 1,

    /// <summary>The output towards falling counts is on.</summary>
    Down = 2,

    /// <summary>Both outputs are on. This must never be; a read-back that says so is a fault.</summary>
    Both = 3,
}
