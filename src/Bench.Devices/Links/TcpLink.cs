using System.Net.Sockets;
using System.Runtime.CompilerServices;

namespace Bench.Devices.Links;

/// <summary>A TCP connection as a link.</summary>
/// <remarks>
/// On Linux and macOS the socket's own handle is used: a socket once given to the runtime's event loop wakes that loop
/// for every segment, which costs more than a round trip to a near device (docs/decisions/0004).
/// </remarks>
public sealed class TcpLink : ILink
{
    private readonly Socket _socket;
    private readonly HandleLink? _handle;

    /// <summary>Takes over a connected socket.</summary>
    public TcpLink(string name, Socket socket)
    {
        Name = name;
        _socket = socket;
        _socket.NoDelay = true; // a request is one small segment; waiting to join it with the next costs 40 ms
        if (!OperatingSystem.IsWindows())
        {
            _socket.Blocking = false;
            _handle = new HandleLink(name, (int)socket.Handle, TimeSpan.Zero, endIsLoss: false, socket.Dispose);
        }
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public TimeSpan CharacterTime => TimeSpan.Zero;

    /// <inheritdoc/>
    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel) =>
        _handle?.WriteAsync(bytes, cancel) ?? SendAsync(bytes, cancel);

    /// <inheritdoc/>
    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) =>
        _handle?.ReadAsync(buffer, cancel) ?? ReceiveAsync(buffer, cancel);

    /// <inheritdoc/>
    public void DiscardInput()
    {
        if (_handle is not null)
        {
            _handle.DiscardInput();
            return;
        }

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
        if (_handle is not null)
        {
            return _handle.DisposeAsync();
        }

        _socket.Dispose();
        return ValueTask.CompletedTask;
    }

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))]
    private async ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
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

    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    private async ValueTask<int> ReceiveAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        try
        {
            return await _socket.ReceiveAsync(buffer, SocketFlags.None, cancel);
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            throw new IOException($"{Name} went away: {e.Message}", e);
        }
    }
}
