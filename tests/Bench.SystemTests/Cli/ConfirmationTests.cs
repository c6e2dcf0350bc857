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
        await using RunningProgram run = AtATerminal(answer + "\\n", sim);
        Assert.Equal(code, (await run.EndAsync()).Code);
        HoldsNothingEnergised();
    }

    [Fact]
    public async Task Run_CtrlCAtTheQuestion_EndsAtOnce()
    {
        Peer.Need("python3");
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        await using RunningProgram run = AtATerminal("\\x03", sim);
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

    // Types at the question, on a terminal of its own, and ends with the program's exit code.
    private RunningProgram AtATerminal(string keys, SimProgram sim) => RunningProgram.Start("python3",
    [
        "-c",
        $$"""
        import os, pty, sys
        child, terminal = pty.fork()
        if child == 0:
            os.execv(sys.argv[1], sys.argv[1:])
        seen = b""
        typed = False
        while True:
            try:
                some = os.read(terminal, 4096)
            except OSError:
                break
            if not some:
                break
            seen += some
            if not typed and b"Type yes: " in seen:
                typed = True
                os.write(terminal, b"{{keys}}")
        sys.stdout.write(seen.decode("utf-8", "replace"))
        sys.exit(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) % 256)
        """,
        BenchProgram.Path, .. Line(sim),
    ]);
}
