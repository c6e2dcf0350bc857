using System.Text.Json;
using Bench.SystemTests.Devices.Peers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Whole runs over real ports, in real time, under a profile made short for it.</summary>
[Collection(RealTime.Name)]
public sealed class RealTimeRunTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Run_OverAPty_ChecksThenJudgesBothUnitsOfOneBench()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy", "seized-valve");
        Finished check = (await BenchProgram.RunAsync("check", "--bench", sim.BenchFile)).Said(0);
        Assert.Contains("position-2: outputs off", check.Output, StringComparison.Ordinal);
        Assert.Contains("Nothing to mend.", check.Output, StringComparison.Ordinal);

        JsonElement seized = (await RunAsync(sim.BenchFile, "--position", "position-2")).Said(0, "Confirmed by --yes.").Json();
        Assert.Equal("scrap", seized.GetProperty("disposition").GetString());
        Assert.Equal("seized-valve", seized.GetProperty("causes")[0].GetProperty("cause").GetString());
        Assert.InRange(seized.GetProperty("duration_s").GetDouble(), 0.5, 60);

        HoldsReusable((await RunAsync(sim.BenchFile, "--position", "position-1")).Said(0).Json());
        (await RunAsync(sim.BenchFile)).OnlySaid(2, "--position", "position-1, position-2");
        (await sim.StopAsync()).Said(0);
    }

    [Fact]
    public async Task Run_OverTcp_JudgesAHealthyUnitReusable()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        HoldsReusable((await RunAsync(sim.BenchFile)).Said(0).Json());
    }

    [Theory]
    [InlineData("moving", "reusable")]
    [InlineData("seized", "scrap")]
    public async Task Run_AgainstPymodbus_JudgesTheUnit(string unit, string disposition)
    {
        int port = ModbusPeers.FreePort();
        await using Peer peer = await ModbusPeers.StartUnitOnPymodbusAsync(port, unit);
        string bench = BenchFiles.OnTcp(_folder, port);
        (await BenchProgram.RunAsync("check", "--bench", bench)).Said(0);
        JsonElement run = (await RunAsync(bench)).Said(0).Json();
        Assert.Equal(disposition, run.GetProperty("disposition").GetString());
        Assert.True(run.GetProperty("outputs_confirmed_off").GetBoolean());
        (await BenchProgram.RunAsync("safe", "--bench", bench)).Said(0);
    }

    // The answers are judged, so what is held is that the record is whole; how fast it went is the machine's affair.
    private static void HoldsReusable(JsonElement run)
    {
        Assert.Equal("judged", run.GetProperty("outcome").GetString());
        Assert.Equal("reusable", run.GetProperty("disposition").GetString());
        Assert.Equal("not-reproduced", run.GetProperty("claim").GetString());
        Assert.InRange(run.GetProperty("moves").GetInt32(), 3, 12);
        Assert.InRange(run.GetProperty("samples").GetInt32(), 300, 20_000);
        Assert.True(run.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.True(File.Exists(run.GetProperty("packet").GetString()));
        Assert.False(run.TryGetProperty("condition", out _));
    }

    private Task<Finished> RunAsync(string bench, params string[] more) => BenchProgram.RunAsync(
    [
        "run", "--bench", bench, "--profile", RepositoryFolder.ShortDiverter, "--serial", "ND4-10417", "--symptom", "intermittent",
        "--part", "ND4-2400", "--return-number", "R-1", "--note", "Swapped on suspicion.", "--yes", "--json", "--data", _folder.At("data"), .. more,
    ]);
}
