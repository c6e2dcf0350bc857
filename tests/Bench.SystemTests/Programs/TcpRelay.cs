using System.Net;
using System.Net.Sockets;

namespace Bench.SystemTests.Programs;

/// <summary>A TCP port that passes everything on to another, and can reset the connections it holds.</summary>
public sealed class TcpRelay : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly int _to;
    private readonly Lock _lock = new();
    private readonly List<Socket> _held = [];
    private readonly Task _serving;

    /// <summary>Begins to serve.</summary>
    /// <param name="to">The port behind it.</param>
    public TcpRelay(int to)
    {
        _to = to;
        _listener.Start();
        _serving = ServeAsync();
    }

    /// <summary>The port.</summary>
    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Connections accepted so far.</summary>
    public int Accepted { get; private set; }

    /// <summary>Resets all connections, as a device that restarts does.</summary>
    public void Reset()
    {
        lock (_lock)
        {
            foreach (Socket socket in _held)
            {
                socket.LingerState = new LingerOption(enable: true, seconds: 0);
                socket.Close();
            }

            _held.Clear();
        }
    }

    public async ValueTask DisposeAsync()
    {
        _listener.Stop();
        Reset();
        await _serving;
        _listener.Dispose();
    }

    private async Task ServeAsync()
    {
        try
        {
            while (true)
            {
                Socket near = await _listener.AcceptSocketAsync();
                Socket far = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                await far.ConnectAsync(IPAddress.Loopback, _to);
                near.NoDelay = far.NoDelay = true;
                lock (_lock)
                {
                    _held.AddRange([near, far]);
                    Accepted++;
                }

                _ = PassAsync(near, far);
                _ = PassAsync(far, near);
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // Stopped.
        }
    }

    private static async Task PassAsync(Socket from, Socket to)
    {
        byte[] bytes = new byte[1024];
        try
        {
            int read;
            while ((read = await from.ReceiveAsync(bytes)) > 0)
            {
                await to.SendAsync(bytes.AsMemory(0, read));
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // Reset.
        }
    }
}
