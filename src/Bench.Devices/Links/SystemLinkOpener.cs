using System.Net;
using System.Net.Sockets;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Links;

/// <summary>Opens this machine's serial ports and TCP connections.</summary>
public sealed class SystemLinkOpener(TimeProvider time) : ILinkOpener
{
    /// <summary>Longest wait for a TCP connection: a device on the same floor answers in milliseconds.</summary>
    public static readonly TimeSpan LongestConnect = TimeSpan.FromSeconds(3);

    private static readonly TimeSpan ConnectPoll = TimeSpan.FromMilliseconds(1);

    /// <inheritdoc/>
    public async ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) =>
        link.Kind == LinkKind.Serial ? SerialPortOpener.Open(link) : await ConnectAsync(link, cancel);

    private async ValueTask<ILink> ConnectAsync(LinkDescription link, CancellationToken cancel)
    {
        try
        {
            using CancellationTokenSource late = new(LongestConnect, time);
            using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(late.Token, cancel);
            return new TcpLink(link.Name, await ConnectAsync(link.Host, link.TcpPort, either.Token));
        }
        catch (Exception e) when (e is SocketException || (e is OperationCanceledException && !cancel.IsCancellationRequested))
        {
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
    }

    private async ValueTask<Socket> ConnectAsync(string host, int port, CancellationToken cancel)
    {
        IPAddress[] addresses = await Dns.GetHostAddressesAsync(host, cancel);
        SocketException? failed = null;
        foreach (IPAddress address in addresses)
        {
            try
            {
                return await ConnectAsync(new IPEndPoint(address, port), cancel);
            }
            catch (SocketException e)
            {
                failed = e;
            }
        }

        throw failed ?? new SocketException((int)SocketError.HostNotFound);
    }

    // By polling, because Socket.ConnectAsync gives the socket to the runtime's event loop for good (see TcpLink).
    private async ValueTask<Socket> ConnectAsync(IPEndPoint where, CancellationToken cancel)
    {
        Socket socket = new(where.AddressFamily, SocketType.Stream, ProtocolType.Tcp) { Blocking = false };
        try
        {
            try
            {
                socket.Connect(where);
            }
            catch (SocketException e) when (e.SocketErrorCode is SocketError.WouldBlock or SocketError.InProgress)
            {
                // Under way.
            }

            while (!socket.Poll(TimeSpan.Zero, SelectMode.SelectWrite) && !socket.Poll(TimeSpan.Zero, SelectMode.SelectError))
            {
                await Task.Delay(ConnectPoll, time, cancel);
            }

            int error = (int)(socket.GetSocketOption(SocketOptionLevel.Socket, SocketOptionName.Error) ?? 0);
            return error == 0 ? socket : throw new SocketException(error);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}
