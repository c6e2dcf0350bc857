using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;
using Bench.SystemTests.Devices.Peers;

namespace Bench.SystemTests.Devices;

public class ServerAgainstMbpollTests
{
    private readonly int[] _memory = new int[50];

    [Fact]
    public async Task Server_OverTcp_IsReadAndWritten()
    {
        Peer.Need("mbpoll");
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        string port = ((IPEndPoint)listener.LocalEndpoint).Port.ToString(CultureInfo.InvariantCulture);
        Task serving = ServeTcpAsync(listener, stop.Token);
        await ExerciseAsync("-m", "tcp", "-p", port, "127.0.0.1");
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => serving);
    }

    [Fact]
    public async Task Server_OverAPty_IsReadAndWritten()
    {
        Peer.Need("mbpoll");
        await using PtyPair pty = await PtyPair.OpenAsync();
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        LinkDescription description = new() { Name = "pty", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = pty.Near };
        await using ILink link = await new SystemLinkOpener(TimeProvider.System).OpenAsync(description, stop.Token);
        Task serving = new ModbusServerSession(Server()).RunAsync(link, LinkProtocol.ModbusRtu, stop.Token);
        await ExerciseAsync("-m", "rtu", "-b", "115200", "-P", "none", pty.Far);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => serving);
    }

    private static async Task<string> PollAsync(int expected, string[] where, string[] what, params string[] values)
    {
        (int code, string printed) = await Peer.RunAsync("mbpoll", ["-1", "-0", "-o", "5", "-a", "5", .. what, .. where, .. values]);
        Assert.True(code == expected, printed);
        return printed;
    }

    private async Task ExerciseAsync(params string[] where)
    {
        string printed = await PollAsync(0, where, ["-t", "3", "-r", "7", "-c", "2"]);
        Assert.Matches(@"\[7\]:\s+1007", printed);
        Assert.Matches(@"\[8\]:\s+1008", printed);
        await PollAsync(0, where, ["-t", "4", "-r", "10"], "123", "456");
        Assert.Equal([123, 456], _memory[10..12]);
        await PollAsync(0, where, ["-t", "4", "-r", "12"], "7");
        Assert.Equal(7, _memory[12]);
        await PollAsync(0, where, ["-t", "0", "-r", "3"], "1");
        await PollAsync(0, where, ["-t", "0", "-r", "4"], "0", "1");
        Assert.Equal([1, 0, 1], _memory[3..6]);
        printed = await PollAsync(0, where, ["-t", "0", "-r", "3", "-c", "3"]);
        Assert.Matches(@"\[3\]:\s+1\s+\[4\]:\s+0\s+\[5\]:\s+1", printed);
        printed = await PollAsync(1, where, ["-t", "4", "-r", "49", "-c", "2"]);
        Assert.Contains("Illegal data address", printed, StringComparison.Ordinal);
    }

    private async Task ServeTcpAsync(TcpListener listener, CancellationToken cancel)
    {
        while (true)
        {
            await using TcpLink link = new("client", await listener.AcceptSocketAsync(cancel));
            await new ModbusServerSession(Server()).RunAsync(link, LinkProtocol.ModbusTcp, cancel);
        }
    }

    private ModbusServer Server()
    {
        RegisterMap map = new();
        for (int i = 0; i < _memory.Length; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.InputRegister, address, () => 1000 + address);
            foreach (RegisterTable table in new[] { RegisterTable.Coil, RegisterTable.HoldingRegister })
            {
                map.OnRead(table, address, () => _memory[address]);
                map.OnWrite(table, address, v => _memory[address] = v);
            }
        }

        return new ModbusServer(new Dictionary<int, RegisterMap> { [5] = map });
    }
}
