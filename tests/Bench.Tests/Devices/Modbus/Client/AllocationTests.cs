using System.Diagnostics;
using System.Reflection;
using System.Runtime.CompilerServices;
using Bench.Devices.Buses;
using Bench.Devices.Feedbacks;
using Bench.Devices.Links;
using Bench.Devices.Meters;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Simulation.Benches;
using Bench.Simulation.Time;

namespace Bench.Tests.Devices.Modbus.Client;

/// <summary>What an exchange leaves to the garbage collector once everything it uses is there.</summary>
public class AllocationTests
{
    private const int Reads = 500;

    // The posts of a scheduler's continuations are delegates the runtime makes: 64 bytes for each await that waits.
    private const long MostInVirtualTime = 512;
    private const long BytesPerPost = 64;

    private static readonly ModbusServer Server = new(new Dictionary<int, RegisterMap>
    {
        [5] = new RegisterMap()
            .OnRead(RegisterTable.InputRegister, 0, () => 42)
            .OnRead(RegisterTable.InputRegister, 1, () => 24)
            .OnRead(RegisterTable.InputRegister, 2, () => 2),
    });

    [Fact]
    public async Task ReadRegisters_AnsweredInPlace_AllocatesNothing()
    {
        SkipUnlessOptimised();
        LinkDescription loop = new() { Name = "loop", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = "loop" };
        await using ReopeningLink link = await ReopeningLink.OpenAsync(new LoopOpener(), loop, TimeProvider.System, TestContext.Current.CancellationToken);
        await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, TimeProvider.System);
        Assert.Equal(0, await MeasureAsync(Device(client, 5)));
    }

    [Fact]
    public void ReadRegisters_OverASimulatedWire_AllocatesOnlyThePosts()
    {
        SkipUnlessOptimised();
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("simulated", [DriveKind.Single], new DateOnly(2026, 1, 1)), "bench.toml");
        SimulatedBench bench = new(file, new Dictionary<string, SimulatedUnit>(), time, seed: 1);
        long bytes = time.Run(async () =>
        {
            await using ReopeningLink link = await ReopeningLink.OpenAsync(new SimulatedLinkOpener(bench, time), file.Links[0], time, CancellationToken.None);
            await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, time);
            return await MeasureAsync(Device(client, 1));
        });

        // Two more awaits, the measurement's own: 608 bytes every time where this class runs alone, less after others.
        Assert.InRange(bytes / Reads, 0, MostInVirtualTime + (2 * BytesPerPost));
    }

    [Fact]
    public async Task RingFeedback_AnsweredInPlace_AllocatesNothing()
    {
        SkipUnlessOptimised();
        await using ModbusClient client = new(new LoopLink(Server), LinkProtocol.ModbusRtu, TimeProvider.System);
        RingFeedback feedback = new(Device(client, 5), new Channel("io", RegisterTable.InputRegister, 0), new Ring(800), () => true);
        Assert.Equal(0, await MeasureAsync(async () => await feedback.ReadAsync(CancellationToken.None)));
        Assert.Equal(42, (await feedback.ReadAsync(CancellationToken.None)).Count);
    }

    [Fact]
    public void Instruments_OverASimulatedWire_AllocateOnlyThePosts()
    {
        SkipUnlessOptimised();
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("simulated", [DriveKind.Single], new DateOnly(2026, 1, 1)), "bench.toml");
        SimulatedBench bench = new(file, new Dictionary<string, SimulatedUnit>(), time, seed: 1);
        long bytes = time.Run(async () =>
        {
            await using ILink link = await new SimulatedLinkOpener(bench, time).OpenAsync(file.Links[0], CancellationToken.None);
            await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, time);
            BusDevice device = Device(client, 1);
            RingFeedback feedback = new(device, file.Positions[0].Current.Channel, new Ring(800), () => true);
            ChannelMeters meters = new(file.Positions[0], _ => device);
            return await MeasureAsync([AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))] async ValueTask () =>
            {
                await feedback.ReadAsync(CancellationToken.None);
                await meters.ReadAsync(CancellationToken.None);
            });
        });
        Assert.InRange(bytes / Reads, 0, 2 * (MostInVirtualTime + (3 * BytesPerPost)));
    }

    [Fact]
    public async Task ChannelMeters_AnsweredInPlace_AllocatesNothing()
    {
        SkipUnlessOptimised();
        await using ModbusClient client = new(new LoopLink(Server), LinkProtocol.ModbusRtu, TimeProvider.System);
        BusDevice device = Device(client, 5);
        UnitPositionDescription position = BenchFileReader.Read(
            StandardBench.OnSerialPort("simulated", [DriveKind.Single], new DateOnly(2026, 1, 1)), "bench.toml").Positions[0];
        ChannelMeters meters = new(position, _ => device);
        Assert.Equal(0, await MeasureAsync(async () => await meters.ReadAsync(CancellationToken.None)));
        Assert.True((await meters.ReadAsync(CancellationToken.None)).Ok);
    }

    // Without optimisation the compiler makes each async method's state an object.
    private static void SkipUnlessOptimised() => Assert.SkipWhen(
        typeof(ModbusClient).Assembly.GetCustomAttribute<DebuggableAttribute>()?.IsJITOptimizerDisabled == true,
        "allocation is measured in a release build, which test.sh makes");

    private static BusDevice Device(ModbusClient client, int address) => new(
        new LinkOwner<IModbusClient>("bus", client), new DeviceDescription { Name = "io", Link = "bus", Address = address, TimeoutMs = 40 }, isFeedback: false);

    private static Task<long> MeasureAsync(BusDevice device)
    {
        ushort[] word = new ushort[1];
        return MeasureAsync([AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))] async ValueTask () =>
            await device.ReadRegistersAsync(BusClass.Moving, RegisterTable.InputRegister, 0, word, retry: false, CancellationToken.None));
    }

    private static async Task<long> MeasureAsync(Func<ValueTask> read)
    {
        long before = 0;
        for (int i = -Reads; i < Reads; i++)
        {
            before = i == 0 ? GC.GetAllocatedBytesForCurrentThread() : before;
            await read();
        }

        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private sealed class LoopOpener : ILinkOpener
    {
        public ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) => ValueTask.FromResult<ILink>(new LoopLink(Server));
    }
}
