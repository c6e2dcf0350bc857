using Bench.Devices.Buses;
using Bench.Devices.Meters;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Tests.Devices.Meters;

public class ChannelMetersTests
{
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;

    public ChannelMetersTests()
    {
        _bus = new Bus(_time);
    }

    [Fact]
    public void Read_NeighbouringRegisters_TakesOneExchange() => _time.Run(async () =>
    {
        _bus.Registers[4] = 65436; // -100 in two's complement
        _bus.Registers[5] = 2400;
        _bus.Registers[6] = 0b10;
        MeterReading reading = await new ChannelMeters(Position(5, 6), Device).ReadAsync(CancellationToken.None);
        Assert.True(reading.Ok);
        Assert.Equal(-0.09, reading.CurrentA, 1e-12); // -100 · 0.001 + 0.01
        Assert.Equal(24.0, reading.VoltageV, 1e-12);
        Assert.True(reading.Index);
        Assert.True(reading.EmergencyStop); // bit 3 is active low and 0
        Assert.Single(_bus.Link.Sent);
    });

    [Fact]
    public void Read_RegistersFarApart_TakesOneExchangeEach() => _time.Run(async () =>
    {
        _bus.Registers[30] = 1200;
        MeterReading reading = await new ChannelMeters(Position(30, 6), Device).ReadAsync(CancellationToken.None);
        Assert.Equal(12.0, reading.VoltageV, 1e-12);
        Assert.Equal(2, _bus.Link.Sent.Count);
    });

    [Fact]
    public void Read_NoAnswer_SaysTheFaultAndIsNotAskedAgain() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        MeterReading reading = await new ChannelMeters(Position(5, 6), Device).ReadAsync(CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Silent, reading.Fault!.Kind);
        Assert.Contains("no answer within 40 ms", reading.Fault.Detail, StringComparison.Ordinal);
        Assert.Single(_bus.Link.Sent);
    });

    // Many a device refuses what lies between the addresses of its manual; who reads the message has named none of those.
    [Fact]
    public void Read_DeviceRefusesTheBlock_SaysThatAddressesBetweenWereReadToo() => _time.Run(async () =>
    {
        UnitPositionDescription position = Position(38, 41);
        position = position with { Current = position.Current with { Channel = position.Current.Channel with { Address = 36 } } };
        MeterReading reading = await new ChannelMeters(position, Device).ReadAsync(CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Refused, reading.Fault!.Kind);
        Assert.StartsWith(
            "asked to read input registers 36 to 41 at once, those between the ones that the bench file names too, it refused: it has no such address",
            reading.Fault.Detail,
            StringComparison.Ordinal);
    });

    [Fact]
    public void Read_FloatBesideAWholeNumber_TakesOneExchange() => _time.Run(async () =>
    {
        // IEEE 754-2019 binary32: -118.625 is C2ED4000h, low word first here.
        (_bus.Registers[4], _bus.Registers[5], _bus.Registers[6]) = (0x4000, 0xC2ED, 2400);
        UnitPositionDescription position = Position(6, 7);
        position = position with { Current = position.Current with { Channel = position.Current.Channel with { Type = RegisterType.Float32, Words = WordOrder.LowFirst } } };
        MeterReading reading = await new ChannelMeters(position, Device).ReadAsync(CancellationToken.None);
        Assert.Equal((-118.625 * 0.001) + 0.01, reading.CurrentA, 1e-12);
        Assert.Equal(24.0, reading.VoltageV, 1e-12);
        Assert.Single(_bus.Link.Sent);
    });

    [Theory]
    [InlineData(0x7FC0)] // not a number
    [InlineData(0x7F80)] // infinity
    [InlineData(0xFF80)]
    public void Read_FloatThatIsNoFiniteNumber_IsADamagedReading(int high) => _time.Run(async () =>
    {
        _bus.Registers[4] = high;
        UnitPositionDescription position = Position(6, 7);
        position = position with { Current = position.Current with { Channel = position.Current.Channel with { Type = RegisterType.Float32 } } };
        MeterReading reading = await new ChannelMeters(position, Device).ReadAsync(CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Garbled, reading.Fault!.Kind);
        Assert.Contains("the number in input register 4 is not finite", reading.Fault.Detail, StringComparison.Ordinal);
        Assert.Equal(new LinkCounts("board", "bus", false, 1, 0, 1, 0), _bus.First.Counts);
    });

    private static UnitPositionDescription Position(int voltage, int inputs) => new()
    {
        Name = "bay-1",
        Drive = DriveKind.Single,
        Up = new Channel("board", RegisterTable.Coil, 0),
        Feedback = FeedbackKind.Ring,
        Count = new Channel("other", RegisterTable.InputRegister, 0),
        Index = new Channel("board", RegisterTable.InputRegister, inputs, 1),
        EmergencyStop = new Channel("board", RegisterTable.InputRegister, inputs, 3, ActiveLow: true),
        Current = Meter(4, 0.001, 0.01, signed: true),
        Voltage = Meter(voltage, 0.01, 0, signed: false),
    };

    private static MeterDescription Meter(int address, double scale, double offset, bool signed) => new()
    {
        Channel = new Channel("board", RegisterTable.InputRegister, address) { Type = signed ? RegisterType.Int16 : RegisterType.Uint16 },
        Scale = scale,
        Offset = offset,
        StandardUncertainty = 0.005,
        CalibratedOn = new DateOnly(2026, 1, 1),
        CalibrationDueOn = new DateOnly(2027, 1, 1),
        Certificate = "none",
    };

    private BusDevice Device(string name) => name == "board" ? _bus.First : _bus.Second;
}
