namespace Bench.Devices.Links;

/// <summary>A byte channel with one owner. Bytes only: framing is the protocol's.</summary>
public interface ILink : IAsyncDisposable
{
    /// <summary>The link's name in the bench file.</summary>
    string Name { get; }

    /// <summary>How long a character takes on the wire; zero where that has no meaning (TCP).</summary>
    TimeSpan CharacterTime { get; }

    /// <summary>Hands bytes to the channel. Returns when the channel has taken them, which may be before they are on the wire.</summary>
    /// <exception cref="IOException">The channel is gone.</exception>
    ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel);

    /// <summary>Waits for at least one byte.</summary>
    /// <returns>Number of bytes read; 0 when the other end has closed.</returns>
    /// <exception cref="IOException">The channel is gone.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; no byte is lost.</exception>
    ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel);

    /// <summary>Forgets bytes that have arrived and were not read.</summary>
    void DiscardInput();
}
