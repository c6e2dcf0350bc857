using System.Diagnostics;
using System.Globalization;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Serving;

namespace Bench.SystemTests.Simulation;

public class ServedBenchTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    public static TheoryData<bool> Paced => [true, false];

    [Theory]
    [MemberData(nameof(Paced))]
    public async Task PtyHost_ReadAndSwitched_AnswersAsTheBenchStands(bool paced)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "no pseudo-terminals");
        await using PtyHost host = PtyHost.Open();
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnSerialPort(host.Path, [DriveKind.Reversing], new DateOnly(2031, 2, 3)), "bench.toml");
        SimulatedBench bench = Bench(file);
        host.Serve(bench, StandardBench.Link, TimeProvider.System, paced);
        await Meets(file, bench);
    }

    [Fact]
    public async Task TcpHost_ReadAndSwitched_AnswersAsTheBenchStands()
    {
        await using TcpHost host = TcpHost.Open();
        BenchFile file = BenchFileReader.Read(
            StandardBench.OnTcpPort("127.0.0.1", host.Port, [DriveKind.Reversing], new DateOnly(2031, 2, 3)), "bench.toml");
        SimulatedBench bench = Bench(file);
        host.Serve(bench, StandardBench.Link);
        await Meets(file, bench);
    }

    // An independent master: mbpoll, on libmodbus. -t 3 is input registers, -0 counts from 0, -1 polls once.
    [Fact]
    public async Task Hosts_AskedByMbpoll_TellTheCountTheUnitReports()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/mbpoll"), "mbpoll is not installed");
        await using PtyHost pty = PtyHost.Open();
        BenchFile serial = BenchFileReader.Read(
            StandardBench.OnSerialPort(pty.Path, [DriveKind.Reversing], new DateOnly(2031, 2, 3)), "bench.toml");
        SimulatedBench onSerial = Bench(serial);
        pty.Serve(onSerial, StandardBench.Link, TimeProvider.System, paced: true);
        Assert.Equal(
            onSerial.Unit(StandardBench.Position(1)).ReportedCount,
            await Mbpoll("-m", "rtu", "-b", "115200", "-P", "none", pty.Path));

        await using TcpHost tcp = TcpHost.Open();
        BenchFile network = BenchFileReader.Read(
            StandardBench.OnTcpPort("127.0.0.1", tcp.Port, [DriveKind.Reversing], new DateOnly(2031, 2, 3)), "bench.toml");
        SimulatedBench onTcp = Bench(network);
        tcp.Serve(onTcp, StandardBench.Link);
        Assert.Equal(
            onTcp.Unit(StandardBench.Position(1)).ReportedCount,
            await Mbpoll("-m", "tcp", "-p", tcp.Port.ToString(CultureInfo.InvariantCulture), "127.0.0.1"));
    }

    [Fact]
    public async Task TcpHost_PortTaken_SaysSo()
    {
        await using TcpHost host = TcpHost.Open();
        IOException e = Assert.Throws<IOException>(() => TcpHost.Open(host.Port));
        Assert.Contains($"TCP port {host.Port}", e.Message, StringComparison.Ordinal);
    }

    private static async Task Meets(BenchFile file, SimulatedBench bench)
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        await using ILink link = await new SystemLinkOpener(TimeProvider.System).OpenAsync(file.Links[0], cancel);
        await using ModbusClient client = new(link, file.Links[0].Protocol, TimeProvider.System);
        ushort[] values = new ushort[3];
        ModbusResult count =
            await client.ReadRegistersAsync(11, RegisterTable.InputRegister, 0, values.AsMemory(0, 1), Patience, cancel);
        Assert.Null(count.Fault);
        Assert.Equal(bench.Unit(StandardBench.Position(1)).ReportedCount, values[0]);
        Assert.Null((await client.WriteCoilAsync(1, 0, true, Patience, cancel)).Fault);
        Assert.True(bench.Unit(StandardBench.Position(1)).UpCoil);
        Assert.Null((await client.WriteCoilAsync(1, 0, false, Patience, cancel)).Fault);
        Assert.False(bench.Unit(StandardBench.Position(1)).UpCoil);
        Assert.Null((await client.ReadRegistersAsync(1, RegisterTable.InputRegister, 0, values, Patience, cancel)).Fault);
        Assert.InRange(values[1], 23_000, 24_200);
    }

    private static async Task<int> Mbpoll(params string[] channel)
    {
        ProcessStartInfo start = new("/usr/bin/mbpoll", ["-a", "11", "-t", "3", "-0", "-r", "0", "-c", "1", "-1", .. channel])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, output + await errors);
        string value = output.Split('\n').Single(line => line.StartsWith("[0]:", StringComparison.Ordinal));
        return int.Parse(value[4..], CultureInfo.InvariantCulture);
    }

    private static SimulatedBench Bench(BenchFile file)
    {
        Profile profile = ProfileReader.Read(File.ReadAllBytes(Find("profiles/nutrient-diverter-4.toml")), "profile");
        return new SimulatedBench(
            file,
            new Dictionary<string, SimulatedUnit> { [StandardBench.Position(1)] = new(profile, new Healthy(), 1) },
            TimeProvider.System,
            1);
    }

    private static string Find(string path)
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, path)))
            {
                return Path.Combine(folder.FullName, path);
            }
        }

        throw new FileNotFoundException(path);
    }
}
