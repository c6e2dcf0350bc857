using System.Net;
using System.Net.Sockets;

namespace Bench.SystemTests.Cli;

/// <summary>Takes connections and answers whatever is asked with the same bytes, or with nothing.</summary>
public sealed class DumbServer : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _serving;

    /// <summary>Begins to serve.</summary>
    public DumbServer(byte[] answer)
    {
        _listener.Start();
        Port = ((IPEndPoint)_listener.LocalEndpoint).Port;
        _serving = ServeAsync(answer);
    }

    /// <summary>Its TCP port.</summary>
    public int Port { get; }

    /// <summary>Everything it was sent.</summary>
    public List<byte> Heard { get; } = [];

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Stop();
        await _serving;
        _listener.Dispose();
        _stop.Dispose();
    }

    private async Task ServeAsync(byte[] answer)
    {
        byte[] asked = new byte[512];
        try
        {
            while (true)
            {
                using TcpClient client = await _listener.AcceptTcpClientAsync(_stop.Token);
                NetworkStream stream = client.GetStream();
                for (int n; (n = await stream.ReadAsync(asked, _stop.Token)) > 0;)
                {
                    Heard.AddRange(asked.AsSpan(0, n));
                    await stream.WriteAsync(answer, _stop.Token);
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException or SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }
}
