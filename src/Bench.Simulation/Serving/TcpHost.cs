using System.Net;
using System.Net.Sockets;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Simulation.Benches;

namespace Bench.Simulation.Serving;

/// <summary>
/// Serves one link of a simulated bench on a TCP port of this machine only (loopback).
/// First <see cref="Open"/>, to learn the port for the bench file; then <see cref="Serve"/>.
/// </summary>
public sealed class TcpHost : IAsyncDisposable
{
    private readonly TcpListener _listener;
    private readonly CancellationTokenSource _stop = new();
    private readonly List<Task> _sessions = [];
    private Task _accepting = Task.CompletedTask;
    private bool _served;
    private bool _disposed;

    private TcpHost(TcpListener listener)
    {
        _listener = listener;
    }

    /// <summary>The port.</summary>
    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Takes a port.</summary>
    /// <param name="port">1 to 65535, or 0 for any that is free.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static TcpHost Open(int port = 0)
    {
        TcpListener listener = new(IPAddress.Loopback, port);
        try
        {
            listener.Start();
        }
        catch (SocketException e)
        {
            throw new IOException($"TCP port {port} on this machine cannot be taken: {e.Message}; name another, or 0 for any", e);
        }

        return new TcpHost(listener);
    }

    /// <summary>Begins to answer whoever connects.</summary>
    /// <param name="bench">The bench, in real time.</param>
    /// <param name="link">Name of the link in its file.</param>
    public void Serve(SimulatedBench bench, string link)
    {
        ArgumentNullException.ThrowIfNull(bench);
        if (_served)
        {
            throw new InvalidOperationException($"TCP port {Port} is served already");
        }

        _served = true;
        _accepting = Accept(bench, bench.File.Links.First(l => l.Name == link));
    }

    /// <summary>Closes all connections and gives the port back.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_disposed)
        {
            return;
        }

        _disposed = true;
        await _stop.CancelAsync();
        _listener.Stop();
        await _accepting;
        await Task.WhenAll(_sessions);
        _stop.Dispose();
    }

    private async Task Accept(SimulatedBench bench, LinkDescription link)
    {
        while (!_stop.IsCancellationRequested)
        {
            try
            {
                Socket socket = await _listener.AcceptSocketAsync(_stop.Token);
                _sessions.RemoveAll(s => s.IsCompleted);
                _sessions.Add(Answer(bench, link, socket));
            }
            catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
            {
                // Either the host closes, or one caller left before it was let in.
            }
        }
    }

    private async Task Answer(SimulatedBench bench, LinkDescription link, Socket socket)
    {
        await using TcpLink connection = new(link.Name, socket);
        try
        {
            await bench.ServeAsync(link.Name, NoisyLink.Over(connection, bench, link.Name), _stop.Token);
        }
        catch (Exception e) when (e is OperationCanceledException or IOException)
        {
            // The caller went away, or the host closes.
        }
    }
}
