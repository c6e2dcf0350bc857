using Bench.Model.Profiles;
using Bench.Simulation.Benches;

namespace Bench.SystemTests.Programs;

/// <summary>Bench files for benches that a test serves itself, or that are not there.</summary>
public static class BenchFiles
{
    private static readonly DateOnly Calibrated = DateOnly.FromDateTime(DateTime.UtcNow).AddMonths(-1);

    /// <summary>One position behind a TCP port of this computer.</summary>
    public static string OnTcp(TemporaryFolder folder, int port, DriveKind drive = DriveKind.Reversing) =>
        folder.Write("bench.toml", StandardBench.OnTcpPort("127.0.0.1", port, [drive], Calibrated));

    /// <summary>As <see cref="OnTcp"/>, with RTU frames carried unchanged, as by a serial converter.</summary>
    public static string OnConverter(TemporaryFolder folder, int port) => folder.Write(
        "bench.toml",
        StandardBench.OnTcpPort("127.0.0.1", port, [DriveKind.Reversing], Calibrated).Replace("modbus-tcp", "modbus-rtu", StringComparison.Ordinal));

    /// <summary>One position on a serial port.</summary>
    public static string OnSerial(TemporaryFolder folder, string port) =>
        folder.Write("bench.toml", StandardBench.OnSerialPort(port, [DriveKind.Reversing], Calibrated));
}
