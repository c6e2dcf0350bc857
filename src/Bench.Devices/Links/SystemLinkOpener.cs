using System.Net.Sockets;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Links;

/// <summary>Opens this machine's serial ports and TCP connections.</summary>
public sealed class SystemLinkOpener(TimeProvider time) : ILinkOpener
{
    /// <summary>Longest wait for a TCP connection: a device on the same floor answers in milliseconds.</summary>
    public static readonly TimeSpan LongestConnect = TimeSpan.FromSeconds(3);

    /// <inheritdoc/>
    public async ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) =>
        link.Kind == LinkKind.Serial ? SerialPortOpener.Open(link) : await ConnectAsync(link, cancel);

    private async ValueTask<ILink> ConnectAsync(LinkDescription link, CancellationToken cancel)
    {
        Socket socket = new(SocketType.Stream, ProtocolType.Tcp);
        try
        {
            using CancellationTokenSource late = new(LongestConnect, time);
            using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(late.Token, cancel);
            await socket.ConnectAsync(link.Host, link.TcpPort, either.Token);
            return new TcpLink(link.Name, socket);
        }
        catch (Exception e) when (e is SocketException || (e is OperationCanceledException && !cancel.IsCancellationRequested))
        {
            socket.Dispose();
            string where = $"{link.Host}, TCP port {link.TcpPort}";
            string detail = (e as SocketException)?.SocketErrorCode switch
            {
                SocketError.ConnectionRefused => $"{where} refused the connection; check the port number, and that the device allows another connection",
                SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => $"no host called {link.Host}; check the spelling, or use its number",
                null => $"{where} did not answer within {LongestConnect.TotalSeconds:0} s; check power, cable and address",
                _ => $"{where} cannot be reached ({e.Message}); check power, cable and address",
            };
            throw new DeviceFaultException(new DeviceFault(DeviceFaultKind.LinkLost, "TCP connection", link.Name, detail), e);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}
