namespace Bench.Simulation.Benches;

/// <summary>One direction of a simulated link.</summary>
internal interface IWire : IDisposable
{
    /// <summary>Takes a frame; it arrives, or does not, later.</summary>
    void Send(ReadOnlySpan<byte> frame);
}
