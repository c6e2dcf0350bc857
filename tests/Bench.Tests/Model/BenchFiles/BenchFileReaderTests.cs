using Bench.Model.BenchFiles;
using Bench.Model.Profiles;

namespace Bench.Tests.Model.BenchFiles;

public class BenchFileReaderTests
{
    [Fact]
    public void Read_TwoPositionsOnRtu_GivesEveryValue()
    {
        BenchFile bench = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/two-position-rtu.toml"), "bench.toml");

        Assert.Equal("Greenhouse bench, two positions", bench.Name);
        Assert.Equal(3.0, bench.SupplyCurrentLimitA);
        Assert.Equal(
            new LinkDescription
            {
                Name = "bus",
                Kind = LinkKind.Serial,
                Protocol = LinkProtocol.ModbusRtu,
                Port = "/dev/serial/by-path/greenhouse-bench-bus",
                Baud = 115200,
                Parity = SerialParity.None,
                StopBits = 1,
            },
            Assert.Single(bench.Links));
        Assert.Equal([1, 11, 12], bench.Devices.Select(device => device.Address));
        UnitPositionDescription left = bench.Positions[0];
        Assert.Equal(
            new UnitPositionDescription
            {
                Name = "left",
                Drive = DriveKind.Reversing,
                Up = new Channel("io", RegisterTable.Coil, 0),
                Down = new Channel("io", RegisterTable.Coil, 1),
                Feedback = FeedbackKind.Ring,
                Count = new Channel("feedback-left", RegisterTable.InputRegister, 0),
                Index = new Channel("io", RegisterTable.InputRegister, 2, Bit: 0),
                EmergencyStop = new Channel("io", RegisterTable.InputRegister, 2, Bit: 1, ActiveLow: true),
                Current = new MeterDescription
                {
                    Channel = new Channel("io", RegisterTable.InputRegister, 0) { Type = RegisterType.Int16 },
                    Scale = 0.001,
                    Offset = 0,
                    StandardUncertainty = 0.004,
                    CalibratedOn = new DateOnly(2026, 3, 2),
                    CalibrationDueOn = new DateOnly(2027, 3, 2),
                    Certificate = "GB-2026-0311",
                },
                Voltage = new MeterDescription
                {
                    Channel = new Channel("io", RegisterTable.InputRegister, 1),
                    Scale = 0.001,
                    StandardUncertainty = 0.02,
                    CalibratedOn = new DateOnly(2026, 3, 2),
                    CalibrationDueOn = new DateOnly(2027, 3, 2),
                    Certificate = "GB-2026-0312",
                },
            },
            left);
        Assert.Equal(DriveKind.Single, bench.Positions[1].Drive);
        Assert.Null(bench.Positions[1].Down);
    }

    [Fact]
    public void Read_OnePositionOverTcp_TakesTheDefaults()
    {
        BenchFile bench = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/one-position-tcp.toml"), "bench.toml");

        Assert.Equal(("192.0.2.10", 502), (bench.Links[0].Host, bench.Links[0].TcpPort));
        Assert.Equal((LinkProtocol.ModbusRtu, 4001), (bench.Links[1].Protocol, bench.Links[1].TcpPort));
        Assert.Equal(new Channel("io", RegisterTable.DiscreteInput, 1, ActiveLow: true), bench.Positions[0].EmergencyStop);
    }
}
