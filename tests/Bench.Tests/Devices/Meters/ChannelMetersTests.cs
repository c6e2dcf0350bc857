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
        Channel = new Channel("board", RegisterTable.InputRegister, address),
        Signed = signed,
        Scale = scale,
        Offset = offset,
        StandardUncertainty = 0.005,
        CalibratedOn = new DateOnly(2026, 1, 1),
        CalibrationDueOn = new DateOnly(2027, 1, 1),
        Certificate = "none",
    };

    private BusDevice Device(string name) => name == "board" ? _bus.First : _bus.Second;
}
