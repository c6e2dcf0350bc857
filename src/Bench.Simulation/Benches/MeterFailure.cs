namespace Bench.Simulation.Benches;

/// <summary>How a meter fails.</summary>
public enum MeterFailure
{
    /// <summary>It does not.</summary>
    None,

    /// <summary>The board answers that it can't read it (Modbus exception 04).</summary>
    Refuses,

    /// <summary>It shows nothing, whatever it measures.</summary>
    Dead,
}
