using System.Globalization;
using System.Runtime.InteropServices;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.SystemTests.Devices.Peers;

namespace Bench.SystemTests.Devices;

public partial class SystemLinkOpenerTests
{
    private readonly SystemLinkOpener _opener = new(TimeProvider.System);

    [Fact]
    public async Task Open_NoSuchPort_SaysSoAndListsThePorts()
    {
        DeviceFault fault = await FailAsync(Serial("/dev/no-such-port"));
        Assert.Equal(DeviceFaultKind.LinkLost, fault.Kind);
        Assert.Contains("no port /dev/no-such-port; plug the adapter in", fault.Detail, StringComparison.Ordinal);
        Assert.Contains("present", fault.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_NotATerminal_SaysSo()
    {
        string file = Path.GetTempFileName();
        DeviceFault fault = await FailAsync(Serial(file));
        File.Delete(file);
        Assert.Equal(DeviceFaultKind.LinkLost, fault.Kind);
        Assert.Contains(file, fault.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_PortHeldByAnotherBench_SaysItIsInUse()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        await using ILink first = await OpenAsync(Serial(pty.Near));
        Assert.Contains("in use", (await FailAsync(Serial(pty.Near))).Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_NobodyListens_SaysRefused()
    {
        LinkDescription nobody = new()
        {
            Name = "bus",
            Kind = LinkKind.Tcp,
            Protocol = LinkProtocol.ModbusTcp,
            Host = "127.0.0.1",
            TcpPort = ModbusPeers.FreePort(),
        };
        Assert.Contains("refused the connection", (await FailAsync(nobody)).Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(SerialParity.None, 1)]
    [InlineData(SerialParity.Even, 1)]
    [InlineData(SerialParity.Odd, 1)]
    [InlineData(SerialParity.None, 2)]
    public async Task Open_AgainAndAgain_CarriesBytesBothWays(SerialParity parity, int stopBits)
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        for (int round = 0; round < 3; round++)
        {
            await using ILink near = await OpenAsync(Serial(pty.Near) with { Parity = parity, StopBits = stopBits });
            await using ILink far = await OpenAsync(Serial(pty.Far) with { Parity = parity, StopBits = stopBits });
            await CarryAsync(near, far);
            await CarryAsync(far, near);
        }
    }

    [Fact]
    public async Task Open_WhileAChildStillHoldsTheClosedPort_Succeeds()
    {
        // From fork to exec a child that is being started holds every open file of this program, and with it the port's
        // lock. A duplicate of the handle stands for it, so that the moment lasts.
        Assert.SkipUnless(OperatingSystem.IsLinux(), "looks into /proc");
        await using PtyPair pty = await PtyPair.OpenAsync();
        ILink link = await OpenAsync(Serial(pty.Near));
        string port = File.ResolveLinkTarget(pty.Near, returnFinalTarget: true)!.FullName;
        int childs = Duplicate(Handles(port).Single());
        await link.DisposeAsync();
        try
        {
            Assert.Equal([childs], Handles(port));
            await using ILink again = await OpenAsync(Serial(pty.Near));
        }
        finally
        {
            _ = Close(childs);
        }
    }

    [Fact]
    public async Task Read_OtherEndVanishes_ThrowsAndClosesAtOnce()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        ILink link = await OpenAsync(Serial(pty.Near));
        Task<int> read = link.ReadAsync(new byte[1], TestContext.Current.CancellationToken).AsTask();
        await pty.PullAsync();
        await Assert.ThrowsAsync<IOException>(() => read);
        await Assert.ThrowsAsync<IOException>(() => link.WriteAsync(new byte[1], TestContext.Current.CancellationToken).AsTask());
        await link.DisposeAsync();
    }

    [Fact]
    public async Task Dispose_WhileAReadWaits_EndsTheRead()
    {
        await using PtyPair pty = await PtyPair.OpenAsync();
        ILink link = await OpenAsync(Serial(pty.Near));
        Task<int> read = link.ReadAsync(new byte[1], TestContext.Current.CancellationToken).AsTask();
        await link.DisposeAsync();
        await Assert.ThrowsAsync<IOException>(() => read);
        await link.DisposeAsync();
    }

    private static int[] Handles(string port) =>
    [
        .. Directory.EnumerateFileSystemEntries("/proc/self/fd")
            .Where(entry => TargetOf(entry) == port)
            .Select(entry => int.Parse(Path.GetFileName(entry), CultureInfo.InvariantCulture)),
    ];

    private static string? TargetOf(string entry)
    {
        try
        {
            return File.ResolveLinkTarget(entry, returnFinalTarget: false)?.FullName;
        }
        catch (IOException)
        {
            return null; // another test closed it meanwhile
        }
    }

    [LibraryImport("libc", EntryPoint = "dup")]
    private static partial int Duplicate(int handle);

    [LibraryImport("libc", EntryPoint = "close")]
    private static partial int Close(int handle);

    private static LinkDescription Serial(string port) =>
        new() { Name = "bus", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = port };

    private static async Task CarryAsync(ILink from, ILink to)
    {
        // Every byte value, so that a port left in a line-editing mode would show.
        byte[] sent = [.. Enumerable.Range(0, 256).Select(i => (byte)i)];
        await from.WriteAsync(sent, TestContext.Current.CancellationToken);
        byte[] received = new byte[256];
        for (int got = 0; got < sent.Length;)
        {
            got += await to.ReadAsync(received.AsMemory(got), TestContext.Current.CancellationToken);
        }

        Assert.Equal(sent, received);
    }

    private ValueTask<ILink> OpenAsync(LinkDescription link) => _opener.OpenAsync(link, TestContext.Current.CancellationToken);

    private async Task<DeviceFault> FailAsync(LinkDescription link) =>
        (await Assert.ThrowsAsync<DeviceFaultException>(() => OpenAsync(link).AsTask())).Fault;
}
