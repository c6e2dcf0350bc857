using System.Net.Sockets;
using System.Runtime.CompilerServices;

namespace Bench.Devices.Links;

/// <summary>A TCP connection as a link.</summary>
/// <remarks>
/// A read first waits in place, for at most 1 ms, and only then leaves the thread: handing an answer from the system's
/// event loop to a pool thread and on costs more than a round trip to a near device takes (docs/decisions/0004).
/// </remarks>
public sealed class TcpLink : ILink
{
    private const int InPlaceMicroseconds = 1000;

    private readonly Socket _socket;

    /// <summary>Takes over a connected socket.</summary>
    public TcpLink(string name, Socket socket)
    {
        Name = name;
        _socket = socket;
        _socket.NoDelay = true; // a request is one small segment; waiting to join it with the next costs 40 ms
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public TimeSpan CharacterTime => TimeSpan.Zero;

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))]
    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        try
        {
            for (int done = 0; done < bytes.Length;)
            {
                done += await _socket.SendAsync(bytes[done..], SocketFlags.None, cancel);
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            throw new IOException($"{Name} went away: {e.Message}", e);
        }
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        try
        {
            return _socket.Poll(InPlaceMicroseconds, SelectMode.SelectRead)
                ? _socket.Receive(buffer.Span)
                : await _socket.ReceiveAsync(buffer, SocketFlags.None, cancel);
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            throw new IOException($"{Name} went away: {e.Message}", e);
        }
    }

    /// <inheritdoc/>
    public void DiscardInput()
    {
        Span<byte> dropped = stackalloc byte[256];
        try
        {
            while (_socket.Available > 0 && _socket.Receive(dropped) > 0)
            {
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // The next write or read says that the link is gone.
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        _socket.Dispose();
        return ValueTask.CompletedTask;
    }
}
