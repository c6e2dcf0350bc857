using System.Diagnostics;
using System.Globalization;
using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.SystemTests.Devices.Peers;

namespace Bench.SystemTests.Devices;

public class ClientAgainstPeersTests(ITestOutputHelper output)
{
    private const int MeasuredReads = 2000;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    [Fact]
    public async Task Client_AgainstPymodbusOverTcp_EveryFunctionWorks()
    {
        int port = ModbusPeers.FreePort();
        await using Peer peer = await ModbusPeers.StartPymodbusAsync("tcp", port.ToString(CultureInfo.InvariantCulture));
        await ExerciseAsync(Tcp(port));
    }

    [Fact]
    public async Task Client_AgainstPymodbusOverAPty_EveryFunctionWorks()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        await using Peer peer = await ModbusPeers.StartPymodbusAsync("rtu", pty.Far);
        await ExerciseAsync(Rtu(pty.Near));
    }

    [Fact]
    public async Task Client_AgainstLibmodbusOverTcp_EveryFunctionWorks()
    {
        int port = ModbusPeers.FreePort();
        await using Peer peer = await ModbusPeers.StartLibmodbusAsync("tcp", port.ToString(CultureInfo.InvariantCulture));
        await ExerciseAsync(Tcp(port));
    }

    [Fact]
    public async Task Client_AgainstLibmodbusOverAPty_EveryFunctionWorks()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        await using Peer peer = await ModbusPeers.StartLibmodbusAsync("rtu", pty.Far);
        await ExerciseAsync(Rtu(pty.Near));
    }

    /// <summary>Reports rates; asserts only that every answer is right.</summary>
    [Fact]
    public async Task Client_ManyReadsOverAPty_AreAllRight()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        await using Peer peer = await ModbusPeers.StartLibmodbusAsync("rtu", pty.Far);
        await using ILink link = await OpenAsync(Rtu(pty.Near));
        double asFastAsItGoes = await RateAsync(new UnpacedLink(link));
        double paced = await RateAsync(link);
        double wire = new WireRate(115200, 10).TransactionsPerSecond(8, 25);
        output.WriteLine($"10 registers over a pty: {asFastAsItGoes:0} transactions/s without frame gaps, {paced:0} with them (a wire at 115200 8N1 carries {wire:0}).");
    }

    private static LinkDescription Tcp(int port) =>
        new() { Name = "peer", Kind = LinkKind.Tcp, Protocol = LinkProtocol.ModbusTcp, Host = "127.0.0.1", TcpPort = port };

    private static LinkDescription Rtu(string path) =>
        new() { Name = "peer", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = path };

    private static ValueTask<ILink> OpenAsync(LinkDescription link) =>
        new SystemLinkOpener(TimeProvider.System).OpenAsync(link, TestContext.Current.CancellationToken);

    private static async Task<double> RateAsync(ILink link)
    {
        await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, TimeProvider.System);
        ushort[] words = new ushort[10];
        Stopwatch watch = Stopwatch.StartNew();
        for (int i = 0; i < MeasuredReads; i++)
        {
            int first = i % 100;
            Assert.True((await client.ReadRegistersAsync(
                5, RegisterTable.InputRegister, first, words, Patience, TestContext.Current.CancellationToken)).Ok);
            Assert.Equal(1000 + first, words[0]);
        }

        return MeasuredReads / watch.Elapsed.TotalSeconds;
    }

    private static async Task ExerciseAsync(LinkDescription description)
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        await using ILink link = await OpenAsync(description);
        await using ModbusClient client = new(link, description.Protocol, TimeProvider.System);
        ushort[] words = new ushort[3];
        bool[] bits = new bool[4];
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 7, words, Patience, cancel)).Ok);
        Assert.Equal([1007, 1008, 1009], words);
        Assert.True((await client.ReadBitsAsync(5, RegisterTable.DiscreteInput, 3, bits, Patience, cancel)).Ok);
        Assert.Equal([true, false, false, true], bits);
        Assert.True((await client.WriteCoilAsync(5, 8, true, Patience, cancel)).Ok);
        Assert.True((await client.WriteCoilsAsync(5, 9, new[] { false, true }, Patience, cancel)).Ok);
        Assert.True((await client.ReadBitsAsync(5, RegisterTable.Coil, 8, bits, Patience, cancel)).Ok);
        Assert.Equal([true, false, true, false], bits);
        Assert.True((await client.WriteRegisterAsync(5, 1, 0xABCD, Patience, cancel)).Ok);
        Assert.True((await client.WriteRegistersAsync(5, 2, new ushort[] { 1, 65535 }, Patience, cancel)).Ok);
        Assert.True((await client.MaskWriteRegisterAsync(5, 3, 0x00FF, 0x1200, Patience, cancel)).Ok);
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.HoldingRegister, 1, words, Patience, cancel)).Ok);
        Assert.Equal([0xABCD, 1, 0x12FF], words);
        Assert.True((await client.ReadWriteRegistersAsync(5, 10, new ushort[] { 77 }, 9, words, Patience, cancel)).Ok);
        Assert.Equal([0, 77, 0], words);
        ModbusResult refused = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 5000, words, Patience, cancel);
        Assert.Equal((DeviceFaultKind.Refused, ExceptionCode.IllegalDataAddress), (refused.Fault, refused.Exception));
    }
}
