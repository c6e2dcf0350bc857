using System.Text.Json;
using Bench.SystemTests.Devices.Peers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Nothing is energised before a person has confirmed cautions and wiring (S3).</summary>
[Collection(RealTime.Name)]
public sealed class ConfirmationTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Run_NobodyToAsk_IsRefusedAndEnergisesNothing()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        JsonElement run = (await BenchProgram.RunAsync(Line(sim))).Said(2, "Not confirmed", "--yes", "emergency stop").Json();
        Assert.Equal("not-confirmed", run.GetProperty("abort").GetString());
        Assert.Equal(0, run.GetProperty("samples").GetInt32());
        Assert.True(run.GetProperty("outputs_confirmed_off").GetBoolean());
        HoldsNothingEnergised();
    }

    [Theory]
    [InlineData("no", 2)]
    [InlineData("y", 2)]
    [InlineData("", 2)]
    public async Task Run_AnsweredOtherwiseThanYes_IsRefused(string answer, int code)
    {
        Peer.Need("python3");
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        await using RunningProgram run = TypedProgram.Start(answer + "\\n", Line(sim));
        Assert.Equal(code, (await run.EndAsync()).Code);
        HoldsNothingEnergised();
    }

    [Fact]
    public async Task Run_CtrlCAtTheQuestion_EndsAtOnce()
    {
        Peer.Need("python3");
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        await using RunningProgram run = TypedProgram.Start("\\x03", Line(sim));
        Assert.Equal(130, (await run.EndAsync()).Code);
        HoldsNothingEnergised();
    }

    private void HoldsNothingEnergised() => Assert.DoesNotContain(
        Directory.GetFiles(_folder.At("data", "logs")), f => Polling.TextOf(f).Contains("drive up", StringComparison.Ordinal));

    private string[] Line(SimProgram sim) =>
    [
        "run", "--bench", sim.BenchFile, "--profile", RepositoryFolder.ShortDiverter, "--serial", "ND4-1", "--symptom", "constant",
        "--json", "--data", _folder.At("data"),
    ];
}
