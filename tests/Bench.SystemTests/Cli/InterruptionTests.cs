using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>A run that is stopped in the middle of a move, politely and not.</summary>
[Collection(RealTime.Name)]
public sealed class InterruptionTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("INT")]
    [InlineData("TERM")]
    [InlineData("HUP")]
    public async Task Run_SignalInMidMove_SwitchesOffAndKeepsTheRecord(string signal)
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy");
        await using RunningProgram run = StartRun(sim);
        await EnergisedAsync(run);
        await run.SignalAsync(signal);
        JsonElement record = (await run.EndAsync()).Said(130).Json();
        Assert.Equal("aborted", record.GetProperty("outcome").GetString());
        Assert.Equal("cancelled", record.GetProperty("abort").GetString());
        Assert.True(record.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.InRange(record.GetProperty("samples").GetInt32(), 30, 20_000);
        Assert.True(File.Exists(record.GetProperty("packet").GetString()));
        await ReadsBackAsync(sim, "off");

        Finished shown = (await BenchProgram.RunAsync("show", record.GetProperty("run").GetString()!, "--data", Data)).Said(0);
        Assert.Contains("stopped by a person", shown.Output, StringComparison.Ordinal);
        (await BenchProgram.RunAsync("judge", record.GetProperty("run").GetString()!, "--data", Data)).OnlySaid(2, "aborted", "nothing to judge");
    }

    [Fact]
    public async Task Run_SignalTwice_StillSwitchesOffAndSealsOnce()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy");
        await using RunningProgram run = StartRun(sim);
        await EnergisedAsync(run);
        await run.SignalAsync("INT");
        await run.SignalAsync("INT");
        Assert.True((await run.EndAsync()).Said(130).Json().GetProperty("outputs_confirmed_off").GetBoolean());
        await ReadsBackAsync(sim, "off");
        (await BenchProgram.RunAsync("verify", "--data", Data)).Said(0);
    }

    [Fact]
    public async Task Run_KilledInMidMove_IsFoundByTheNextStartAndSafeSwitchesOff()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy");
        await using (RunningProgram run = StartRun(sim))
        {
            await EnergisedAsync(run);
            await run.SignalAsync("KILL");
            await run.EndAsync();
        }

        // The output stands on until the board's watchdog or 'bench safe' ends it, whichever comes first.
        Finished safe = (await BenchProgram.RunAsync("safe", "--bench", sim.BenchFile)).Said(0);
        Assert.Equal("position-1: off, read back\n", safe.Output);
        await ReadsBackAsync(sim, "off");

        Finished listed = (await BenchProgram.RunAsync("runs", "--data", Data)).Said(0);
        Assert.Contains("open", listed.Output, StringComparison.Ordinal);
        await using RunningProgram next = StartRun(sim);
        await EnergisedAsync(next);
        await next.SignalAsync("TERM");
        Finished second = (await next.EndAsync()).Said(130, "was cut short", "samples are kept", "bench safe");
        JsonElement[] runs = [.. (await BenchProgram.RunAsync("runs", "--json", "--data", Data)).Said(0).Json().EnumerateArray()];
        Assert.Equal(2, runs.Length);
        JsonElement dead = runs.Single(r => r.GetProperty("id").GetString() != second.Json().GetProperty("run").GetString());
        JsonElement record = (await BenchProgram.RunAsync("show", dead.GetProperty("id").GetString()!, "--json", "--data", Data)).Said(0).Json();
        Assert.Equal("host-died", record.GetProperty("abort").GetString());
        Assert.False(record.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.InRange(record.GetProperty("samples").GetInt32(), 20, 20_000);
        (await BenchProgram.RunAsync("report", dead.GetProperty("id").GetString()!, "--out", _folder.At("out"), "--data", Data)).Said(0);
        (await BenchProgram.RunAsync("verify", "--data", Data)).Said(0);
    }

    [Fact]
    public async Task Run_BenchVanishesInMidMove_SaysThatOffIsNotConfirmed()
    {
        SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        await using RunningProgram run = StartRun(sim);
        await EnergisedAsync(run);
        await sim.DisposeAsync();
        Finished end = await run.EndAsync();
        JsonElement record = end.Said(5).Json();
        Assert.Equal("aborted", record.GetProperty("outcome").GetString());
        Assert.False(record.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.Contains("emergency stop", record.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_ConnectionResetInMidMove_OpensItAgainAndSwitchesOff()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        string text = await File.ReadAllTextAsync(sim.BenchFile, TestContext.Current.CancellationToken);
        int port = int.Parse(Regex.Match(text, @"tcp_port = (\d+)").Groups[1].Value, CultureInfo.InvariantCulture);
        await using TcpRelay relay = new(port);
        await using RunningProgram run = StartRun(_folder.Write("relayed.toml", text.Replace($"tcp_port = {port}", $"tcp_port = {relay.Port}", StringComparison.Ordinal)));
        await EnergisedAsync(run);
        relay.Reset();
        JsonElement record = (await run.EndAsync()).Said(3).Json();
        Assert.Equal("bench-fault", record.GetProperty("abort").GetString());
        Assert.True(record.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.Equal(2, relay.Accepted);
        await ReadsBackAsync(sim, "off");
    }

    private string Data => _folder.At("data");

    private RunningProgram StartRun(SimProgram sim) => StartRun(sim.BenchFile);

    private RunningProgram StartRun(string benchFile) =>
        // `env` gives back SIGINT its default, which whoever started the tests may have turned off for all its children.
        RunningProgram.Start("env",
        [
            "--default-signal=INT", BenchProgram.Path, "run", "--bench", benchFile, "--profile", RepositoryFolder.ShortDiverter,
            "--serial", "ND4-10417", "--symptom", "intermittent", "--yes", "--json", "--data", Data,
        ]);

    // The log tells that the drive is about to go on, and it stays the last word until it goes off. What the store writes
    // after that are samples of the move.
    private async Task EnergisedAsync(RunningProgram run)
    {
        await run.PrintsAsync("homing: ");
        await Polling.UntilAsync(() => LastWordOfTheDrive().Contains("drive up: on", StringComparison.Ordinal));
        DateTime then = Written();
        await Polling.UntilAsync(() => Written() != then);
    }

    private string LastWordOfTheDrive() => Directory.GetFiles(_folder.At("data", "logs")).SelectMany(f => Polling.TextOf(f).Split('\n'))
        .LastOrDefault(l => l.Contains("\"drive", StringComparison.Ordinal), "");

    private DateTime Written() => File.GetLastWriteTimeUtc(_folder.At("data", "bench.db-wal"));

    private static async Task ReadsBackAsync(SimProgram sim, string state)
    {
        JsonElement check = (await BenchProgram.RunAsync("check", "--json", "--bench", sim.BenchFile)).Json();
        Assert.Equal(state, check.GetProperty("outputs")[0].GetProperty("state").GetString());
    }
}
