using System.CommandLine;
using Bench.Cli.Output;
using Bench.Cli.Signals;
using Bench.Cli.Simulating;
using Bench.Model.BenchFiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Serving;

namespace Bench.Cli.Verbs;

/// <summary><c>bench sim</c>: serves a simulated bench in real time, to whoever speaks Modbus.</summary>
internal static class SimVerb
{
    private static readonly Option<int?> TcpOption = new("--tcp") { Description = "Serve Modbus TCP on this loopback port (0: any free one) instead of a pty", HelpName = "PORT" };
    private static readonly Option<string[]> UnitOption = new("--unit")
    {
        Description = "A unit in the next position: CONDITION, or FAMILY=CONDITION; repeat for more (default: one healthy)",
        HelpName = "UNIT",
        DefaultValueFactory = _ => ["healthy"],
    };

    private static readonly Option<string> FileOption = new("--bench-file") { Description = "Bench file to write for whoever connects", HelpName = "FILE", DefaultValueFactory = _ => "sim-bench.toml" };
    private static readonly Option<int> SeedOption = new("--seed") { Description = "Seed of the units", HelpName = "N", DefaultValueFactory = _ => 1 };
    private static readonly Option<bool> UnpacedOption = new("--unpaced") { Description = "Answer on the pty as fast as possible instead of at the speed of the wire" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(TcpOption);
        command.Add(UnitOption);
        command.Add(FileOption);
        command.Add(SeedOption);
        command.Add(UnpacedOption);
        command.SetGuardedAction(ServeAsync);
    }

    private static async Task<int> ServeAsync(ParseResult options)
    {
        PlacedUnit[] units = [.. options.GetRequiredValue(UnitOption).Select(PlacedUnit.Parse)];
        if (units.Length > StandardBench.MostPositions)
        {
            throw new CliException(ExitCode.BadInput, $"--unit: {units.Length} units; a bench has at most {StandardBench.MostPositions} positions");
        }

        using StopSignals stop = new();
        try
        {
            await (options.GetValue(TcpOption) is { } port ? ServeTcpAsync(options, units, port, stop.Token) : ServePtyAsync(options, units, stop.Token));
        }
        catch (Exception e) when (e is IOException or PlatformNotSupportedException or UnauthorizedAccessException)
        {
            throw new CliException(ExitCode.BadInput, e.Message);
        }

        return ExitCode.Done;
    }

    private static async Task ServePtyAsync(ParseResult options, PlacedUnit[] units, CancellationToken stop)
    {
        await using PtyHost host = PtyHost.Open();
        SimulatedBench bench = Prepare(options, units, StandardBench.OnSerialPort(host.Path, [.. units.Select(u => u.Profile)], Calibrated()));
        host.Serve(bench, StandardBench.Link, TimeProvider.System, paced: !options.GetValue(UnpacedOption));
        await AnnounceAsync(options, host.Path, bench, units, stop);
    }

    private static async Task ServeTcpAsync(ParseResult options, PlacedUnit[] units, int port, CancellationToken stop)
    {
        if (port is < 0 or > 65535)
        {
            throw new CliException(ExitCode.BadInput, $"--tcp {port}: a TCP port is 1 to 65535, or 0 for any free one");
        }

        await using TcpHost host = TcpHost.Open(port);
        SimulatedBench bench = Prepare(options, units, StandardBench.OnTcpPort("127.0.0.1", host.Port, [.. units.Select(u => u.Profile)], Calibrated()));
        host.Serve(bench, StandardBench.Link);
        await AnnounceAsync(options, $"127.0.0.1:{host.Port}", bench, units, stop);
    }

    private static DateOnly Calibrated() => DateOnly.FromDateTime(TimeProvider.System.GetUtcNow().UtcDateTime).AddMonths(-4);

    private static SimulatedBench Prepare(ParseResult options, PlacedUnit[] units, string text)
    {
        string path = options.GetRequiredValue(FileOption);
        BenchFile file = BenchFileReader.Read(text, path);
        ulong seed = (ulong)(uint)options.GetValue(SeedOption);
        Dictionary<string, SimulatedUnit> placed = [];
        for (int i = 0; i < units.Length; i++)
        {
            placed[StandardBench.Position(i + 1)] = new SimulatedUnit(units[i].Profile, units[i].Condition, seed + (ulong)i);
        }

        SimulatedBench bench = new(file, placed, TimeProvider.System, seed);
        File.WriteAllText(path, text);
        return bench;
    }

    private static async Task AnnounceAsync(ParseResult options, string place, SimulatedBench bench, PlacedUnit[] units, CancellationToken stop)
    {
        string file = Path.GetFullPath(options.GetRequiredValue(FileOption));
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new
            {
                Place = place,
                BenchFile = file,
                Positions = units.Select((u, i) => new { Name = StandardBench.Position(i + 1), u.Profile.Family, Condition = u.Condition.Id }),
            });
        }
        else
        {
            Terminal.Result($"Simulated bench on {place}; bench file {file}");
            for (int i = 0; i < units.Length; i++)
            {
                Terminal.Result($"  {StandardBench.Position(i + 1)}: {units[i].Profile.Family}, {units[i].Condition.Title}");
            }
        }

        Terminal.Say("Serving until stopped with Ctrl-C.");
        using PeriodicTimer look = new(TimeSpan.FromMilliseconds(20), TimeProvider.System);
        try
        {
            while (await look.WaitForNextTickAsync(stop))
            {
                foreach (WatchdogDrop drop in bench.TakeWatchdogDrops())
                {
                    Terminal.Say($"Watchdog of {drop.Device} switched {drop.Outputs} output(s) off at {drop.At.UtcDateTime:yyyy-MM-ddTHH:mm:ss.fff}Z: nobody spoke to it.");
                }
            }
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }
    }
}
