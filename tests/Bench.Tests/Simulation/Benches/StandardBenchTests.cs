using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Tests.Running.Kinds;

namespace Bench.Tests.Simulation.Benches;

public class StandardBenchTests
{
    [Fact]
    public void OnSerialPort_TwoPositions_IsAFileTheReaderTakes()
    {
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnSerialPort("/dev/pts/7", [DriveKind.Reversing, DriveKind.Single], new DateOnly(2031, 2, 3)), "bench.toml");
        Assert.Equal(("/dev/pts/7", 115200, LinkProtocol.ModbusRtu), (file.Links[0].Port, file.Links[0].Baud, file.Links[0].Protocol));
        Assert.Equal([("io", 1), ("feedback-1", 11), ("feedback-2", 12)], file.Devices.Select(d => (d.Name, d.Address)));
        Assert.Equal(new WatchdogDescription { HoldingRegister = 0, UnitMs = 10, TimeoutMs = 1000 }, file.Devices[0].Watchdog);
        Assert.Null(file.Devices[1].Watchdog);
        Assert.Equal(["position-1", "position-2"], file.Positions.Select(p => p.Name));
        Assert.Equal(new Channel("io", RegisterTable.Coil, 1), file.Positions[0].Down);
        Assert.Null(file.Positions[1].Down);
        Assert.Equal(new Channel("io", RegisterTable.InputRegister, 6, 1, true), file.Positions[1].EmergencyStop);
        Assert.Equal(new DateOnly(2032, 2, 3), file.Positions[1].Voltage.CalibrationDueOn);
    }

    [Fact]
    public void OnTcpPort_OnePosition_IsAFileTheReaderTakes()
    {
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnTcpPort("127.0.0.1", 15020, [DriveKind.Single], new DateOnly(2031, 2, 3)), "bench.toml");
        Assert.Equal(("127.0.0.1", 15020, LinkProtocol.ModbusTcp), (file.Links[0].Host, file.Links[0].TcpPort, file.Links[0].Protocol));
    }

    [Fact]
    public void OnSerialPort_NoPosition_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardBench.OnSerialPort("x", Array.Empty<DriveKind>(), new DateOnly(2031, 2, 3)));

    [Fact]
    public void OnTcpPort_UnitsOfEveryKind_IsWiredForEach()
    {
        Profile[] units =
        [
            Families.Diverter,
            KindRun.Profile("mist-selector-4"),
            KindRun.Profile("feed-router-4"),
            Families.Diverter with { Feedback = FeedbackKind.Incremental },
        ];
        BenchFile file = BenchFileReader.Read(StandardBench.OnTcpPort("127.0.0.1", 15020, units, new DateOnly(2031, 2, 3)), "bench.toml");

        Assert.Equal(units.Select(u => (u.Drive, u.Feedback)), file.Positions.Select(p => (p.Drive, p.Feedback)));
        Assert.Equal(["North", "East", "South", "West"], file.Positions[1].Switches.Select(s => s.Port));
        Assert.Equal(new Channel("feedback-2", RegisterTable.DiscreteInput, 3), file.Positions[1].Switches[3].Input);
        Assert.Equal(new TargetDescription(new Channel("feedback-3", RegisterTable.HoldingRegister, 0), 1), file.Positions[2].Target);
        Assert.Equal(new Channel("io", RegisterTable.Coil, 4), file.Positions[2].Up);
        Assert.Equal(3200, file.Positions[3].Counter!.CountsPerRevolution);
    }

    [Fact]
    public void OnSerialPort_SupplyThatCanBeSet_FeedsAndMeasuresEveryPosition()
    {
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnSerialPort("/dev/pts/7", [DriveKind.Reversing, DriveKind.Single], new DateOnly(2031, 2, 3), supply: true), "bench.toml");

        DeviceDescription supply = file.Devices.Single(d => d.Name == StandardBench.Supply);
        Assert.Equal((24.0, 18.0, 30.0), (supply.SupplyVoltageV!.Value, supply.SupplyRange!.Value.LowestV, supply.SupplyRange.Value.HighestV));
        Assert.All(file.Positions, p => Assert.Equal((StandardBench.Supply, "MEAS:VOLT?"), (p.Voltage.Channel.Device, p.Voltage.Channel.Text)));
        Assert.All(file.Positions, p => Assert.Equal(StandardBench.Board, p.Current.Channel.Device));

        // What lies between two registers that are read is read too, and must be there.
        Assert.All(file.Positions, p => Assert.Equal(p.Current.Channel.Address + 1, p.Index!.Address));
    }
}
