using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Tests.Devices.Positions;

public class OpenBenchTests
{
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;
    private readonly Opener _opener;

    public OpenBenchTests()
    {
        _bus = new Bus(_time);
        _opener = new Opener(_bus.Link);
    }

    [Fact]
    public void Position_ReadsAndCountsItsDevices() => _time.Run(async () =>
    {
        await using OpenBench bench = await OpenAsync(File());
        IUnitPosition position = bench.Position("bay-1", new Ring(800));
        _bus.Registers[9] = 400;
        Assert.Equal(400, (await position.Feedback.ReadAsync(CancellationToken.None)).Count);
        Assert.True((await position.Meters.ReadAsync(CancellationToken.None)).Ok);
        Assert.Equal(DriveState.Off, await position.Drive.ReadBackAsync(CancellationToken.None));
        Assert.Equal(
            [new LinkCounts("board", "bus", false, 2, 0, 0, 0), new LinkCounts("encoder", "bus", true, 1, 0, 0, 0)],
            position.Counts.OrderBy(c => c.Device, StringComparer.Ordinal).Select(c => c with { TurnaroundMs = null }));
        Assert.All(position.Counts, c => Assert.InRange(c.TurnaroundMs!.Value, 0, 2));
    });

    [Fact]
    public void Position_UnknownName_SaysWhichThereAre() => _time.Run(async () =>
    {
        await using OpenBench bench = await OpenAsync(File());
        ArgumentException thrown = Assert.Throws<ArgumentException>(() => bench.Position("bay-9", new Ring(800)));
        Assert.Contains("bay-1, bay-2", thrown.Message, StringComparison.Ordinal);
    });

    [Fact]
    public void SwitchEverythingOff_OutputsOn_AreOffAndReadBack() => _time.Run(async () =>
    {
        Array.Fill(_bus.Coils[0], 1);
        await using OpenBench bench = await OpenAsync(File());
        IReadOnlyList<SafeStateResult> results = await bench.SwitchEverythingOffAsync(CancellationToken.None);
        Assert.Equal(["bay-1", "bay-2"], results.Select(r => r.Position));
        Assert.All(results, r => Assert.True(r.ConfirmedOff));
        Assert.Equal([0, 0, 1, 1, 0, 1], _bus.Coils[0][..6]); // coils 0, 1 and 4 are named by the file
    });

    [Fact]
    public void SwitchEverythingOff_BoardSilent_SaysSoForEveryPosition() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        await using OpenBench bench = await OpenAsync(File());
        IReadOnlyList<SafeStateResult> results = await bench.SwitchEverythingOffAsync(CancellationToken.None);
        Assert.All(results, r => Assert.Equal((false, DeviceFaultKind.Silent), (r.ConfirmedOff, r.Fault!.Kind)));
    });

    [Fact]
    public void Check_EverySecondAnswerLost_CountsErrorsAndWritesNothing() => _time.Run(async () =>
    {
        _bus.Loses = n => n % 2 == 0;
        await using OpenBench bench = await OpenAsync(File());
        IReadOnlyList<DeviceCheck> checks = await bench.CheckAsync(10, CancellationToken.None);
        Assert.Equal(["board", "encoder"], checks.Select(c => c.Device));
        Assert.All(checks, c =>
        {
            Assert.True(c.Answered);
            Assert.Equal((10, 5), (c.Reads, c.Errors));
            Assert.Equal(DeviceFaultKind.Silent, c.Fault!.Kind);
            Assert.Equal(TimeSpan.FromMilliseconds(2), c.RoundTripP50);
            Assert.Equal(TimeSpan.FromMilliseconds(2), c.RoundTripP99);
        });
        Assert.Empty(_bus.Writes);
    });

    [Fact]
    public void Check_NothingAnswers_HasNoRoundTrip() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        await using OpenBench bench = await OpenAsync(File());
        DeviceCheck check = (await bench.CheckAsync(3, CancellationToken.None))[0];
        Assert.False(check.Answered);
        Assert.Null(check.RoundTripP50);
    });

    [Fact]
    public void Open_SecondLinkFails_ClosesTheFirst() => _time.Run(async () =>
    {
        BenchFile file = File() with { Links = [Link("bus"), Link("lost")] };
        await Assert.ThrowsAsync<DeviceFaultException>(() => OpenAsync(file));
        Assert.True(_bus.Link.Disposed);
    });

    [Fact]
    public void Open_OutputActiveLow_IsRefused() => _time.Run(async () =>
    {
        BenchFile file = File();
        UnitPositionDescription inverted = file.Positions[0] with { Up = new Channel("board", RegisterTable.Coil, 0, ActiveLow: true) };
        ConfigurationException thrown = await Assert.ThrowsAsync<ConfigurationException>(() => OpenAsync(file with { Positions = [inverted] }));
        Assert.Contains("bay-1", thrown.Message, StringComparison.Ordinal);
    });

    private static LinkDescription Link(string name) => new() { Name = name, Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu };

    private static BenchFile File() => new()
    {
        Name = "glasshouse",
        SupplyCurrentLimitA = 3,
        Links = [Link("bus")],
        Devices = [Bus.Description("board", 1), Bus.Description("encoder", 2)],
        Positions =
        [
            Position("bay-1", DriveKind.Reversing, 0, 1),
            Position("bay-2", DriveKind.Single, 4, null),
        ],
        Sha256 = "",
        Text = "",
    };

    private static UnitPositionDescription Position(string name, DriveKind drive, int up, int? down) => new()
    {
        Name = name,
        Drive = drive,
        Up = new Channel("board", RegisterTable.Coil, up),
        Down = down is int d ? new Channel("board", RegisterTable.Coil, d) : null,
        Feedback = FeedbackKind.Ring,
        Count = new Channel("encoder", RegisterTable.InputRegister, 9),
        Current = Meter(0),
        Voltage = Meter(1),
    };

    private static MeterDescription Meter(int address) => new()
    {
        Channel = new Channel("board", RegisterTable.InputRegister, address),
        Scale = 0.001,
        StandardUncertainty = 0.005,
        CalibratedOn = new DateOnly(2026, 1, 1),
        CalibrationDueOn = new DateOnly(2027, 1, 1),
        Certificate = "none",
    };

    private Task<OpenBench> OpenAsync(BenchFile file) => BenchDevices.OpenAsync(file, _opener, _time, CancellationToken.None);

    private sealed class Opener(ILink bus) : ILinkOpener
    {
        public ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) => link.Name == "bus"
            ? ValueTask.FromResult(bus)
            : throw new DeviceFaultException(new DeviceFault(DeviceFaultKind.LinkLost, "serial port", link.Name, "no such port"));
    }
}
