namespace Bench.Model.Instruments;

/// <summary>Which way a drive turns: towards rising or towards falling counts.</summary>
public enum DriveDirection
{
    /// <summary>Towards rising counts.</summary>
    Up = 1,

    /// <summary>Towards falling counts.</summary>
    Down = 2,
}
