using System.Net.Sockets;

namespace Bench.Devices.Links;

/// <summary>A TCP connection as a link.</summary>
public sealed class TcpLink : ILink
{
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
    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
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
