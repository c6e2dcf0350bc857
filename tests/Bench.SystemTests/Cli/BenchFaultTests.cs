using System.Text;
using System.Text.Json;
using Bench.SystemTests.Devices.Peers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>A bench that is not as its file says: found before anything is energised, exit code 3, what to mend.</summary>
[Collection(RealTime.Name)]
public sealed class BenchFaultTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("check")]
    [InlineData("safe")]
    public async Task Verb_PortIsMissing_SaysSo(string verb) =>
        (await BenchProgram.RunAsync(verb, "--bench", BenchFiles.OnSerial(_folder, "/dev/no-such-port")))
            .OnlySaid(3, "no port /dev/no-such-port", "plug the adapter in");

    [Fact]
    public async Task Run_PortIsMissing_SaysSoAndMakesNoRun()
    {
        (await RunAsync(BenchFiles.OnSerial(_folder, "/dev/no-such-port"))).OnlySaid(3, "no port /dev/no-such-port");
        Assert.Equal(0, (await BenchProgram.RunAsync("runs", "--json", "--data", _folder.At("data"))).Json().GetArrayLength());
    }

    [Fact]
    public async Task Run_NobodyListens_SaysSo() =>
        (await RunAsync(BenchFiles.OnTcp(_folder, ModbusPeers.FreePort()))).OnlySaid(3, "refused the connection", "check the port number");

    [Fact]
    public async Task Check_PortHeldByAnotherBench_SaysItIsInUse()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy");
        await using RunningProgram holder = BenchProgram.Start(RunLine(sim.BenchFile));
        await holder.PrintsAsync("homing");
        (await BenchProgram.RunAsync("check", "--bench", sim.BenchFile)).OnlySaid(3, "in use");
        await holder.SignalAsync("TERM");
        (await holder.EndAsync()).Said(130);
    }

    [Fact]
    public async Task Verbs_DevicesAreSilent_NameWhatToCheckAndKeepTheRecord()
    {
        await using DumbServer silent = new([]);
        string bench = BenchFiles.OnConverter(_folder, silent.Port);
        Finished check = (await BenchProgram.RunAsync("check", "--bench", bench)).Said(3, "To mend", "no device answers", "speed and parity", "A and B");
        Assert.Contains("NO ANSWER", check.Output, StringComparison.Ordinal);
        (await BenchProgram.RunAsync("safe", "--bench", bench)).Said(5, "emergency stop");
        await NotEnergisedAsync(bench, silent);
    }

    // What a wrong speed looks like: something comes back, and none of it is a frame.
    [Fact]
    public async Task Verbs_AnswersAreGarbage_NameWhatToCheckAndKeepTheRecord()
    {
        await using DumbServer garbage = new(Encoding.Latin1.GetBytes("\u00f8\u0080\u0000\u00fe\u0078\u00e0\u0006"));
        string bench = BenchFiles.OnConverter(_folder, garbage.Port);
        (await BenchProgram.RunAsync("check", "--bench", bench)).Said(3, "To mend", "speed and parity");
        await NotEnergisedAsync(bench, garbage);
    }

    [Fact]
    public async Task Check_WrongAddress_NamesTheDeviceThatDoesNotAnswer()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        string text = await File.ReadAllTextAsync(sim.BenchFile, TestContext.Current.CancellationToken);
        string wrong = _folder.Write("wrong.toml", text.Replace("address = 11", "address = 12", StringComparison.Ordinal));
        (await BenchProgram.RunAsync("check", "--bench", wrong)).Said(3, "To mend: feedback-1: no answer at address 12", "address switch");
        JsonElement check = (await BenchProgram.RunAsync("check", "--json", "--bench", wrong)).Said(3).Json();
        Assert.False(check.GetProperty("ok").GetBoolean());
        Assert.Equal([true, false], check.GetProperty("devices").EnumerateArray().Select(d => d.GetProperty("answered").GetBoolean()));
    }

    private async Task NotEnergisedAsync(string bench, DumbServer server)
    {
        Finished run = (await RunAsync(bench)).Said(3);
        JsonElement record = run.Json();
        Assert.Equal("aborted", record.GetProperty("outcome").GetString());
        Assert.Equal("bench-fault", record.GetProperty("abort").GetString());
        Assert.Contains("nothing was energised", record.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
        Assert.True(File.Exists(record.GetProperty("packet").GetString()));

        // FC 05 with FF00 is the one request that energises (Modbus Application Protocol V1.1b3, 6.5).
        Assert.DoesNotContain("05-00-00-FF", BitConverter.ToString([.. server.Heard]), StringComparison.Ordinal);
        Assert.Equal(1, (await BenchProgram.RunAsync("runs", "--json", "--data", _folder.At("data"))).Json().GetArrayLength());
    }

    private string[] RunLine(string bench) =>
    [
        "run", "--bench", bench, "--profile", RepositoryFolder.ShortDiverter, "--serial", "ND4-1", "--symptom", "constant",
        "--yes", "--json", "--data", _folder.At("data"),
    ];

    private Task<Finished> RunAsync(string bench) => BenchProgram.RunAsync(RunLine(bench));
}
