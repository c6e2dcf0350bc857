using System.Text.Json;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Two units at once over one port, in real time, by the built program.</summary>
[Collection(RealTime.Name)]
public sealed class SeveralUnitsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Run_TwoUnitsOverOnePty_GivesEachItsOwnVerdict()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy", "seized-valve");
        await using RunningProgram run = Start(sim, "--json");
        Finished end = (await run.EndAsync()).Said(
            0, "Before anything is energised: unit ND4-1 at position-1", "Every caution above, for this unit too.", "position-1  ND4-1  ended: ● reusable", "position-2  ND4-2  ended: ■ scrap");
        JsonElement[] units = [.. end.Json().EnumerateArray()];
        Assert.Equal(["position-1", "position-2"], units.Select(u => u.GetProperty("position").GetString()));
        Assert.Equal(["ND4-1", "ND4-2"], units.Select(u => u.GetProperty("serial").GetString()));
        Assert.Equal(["reusable", "scrap"], units.Select(u => u.GetProperty("disposition").GetString()));
        Assert.Equal("seized-valve", units[1].GetProperty("causes")[0].GetProperty("cause").GetString());
        Assert.All(units, u => Assert.True(u.GetProperty("outputs_confirmed_off").GetBoolean()));
        Assert.All(units, u => Assert.True(File.Exists(u.GetProperty("packet").GetString())));
        (await BenchProgram.RunAsync("verify", "--data", Data)).Said(0);
    }

    [Fact]
    public async Task Run_UnitsFile_EndsWithATable()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "seized-motor", "seized-valve");
        string units = _folder.Write(
            "units.toml",
            $"""
            schema = 1
            [[unit]]
            position = "position-1"
            serial = "ND4-1"
            symptom = "constant"
            [[unit]]
            position = "position-2"
            serial = "ND4-2"
            symptom = "intermittent"
            profile = '{RepositoryFolder.ShortDiverter}'
            """);
        Finished end = (await BenchProgram.RunAsync(
            "run", "--bench", sim.BenchFile, "--units", units, "--profile", RepositoryFolder.ShortDiverter, "--yes", "--data", Data)).Said(0);
        Assert.Matches(@"(?m)^serial  position    outcome  disposition +likeliest cause +packet$", end.Output);
        Assert.Matches(@"(?m)^ND4-1   position-1  judged   \S+ +\S+ +ND4-1-[0-9a-f]{12}\.html$", end.Output);
        Assert.Matches(@"(?m)^ND4-2   position-2  judged   \S+ +\S+ +ND4-2-[0-9a-f]{12}\.html$", end.Output);
        Assert.Contains($"Packets in {Path.Combine(Data, "packets")}", end.Output, StringComparison.Ordinal);
    }

    // A relay contact that does not make looks like an open winding: only a unit that turned here shows that it is not that.
    [Fact]
    public async Task Run_NoCurrent_IsHeldUntilAnotherUnitHasTurnedAtThePosition()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "open-winding", "healthy");
        string[] common = ["run", "--bench", sim.BenchFile, "--profile", RepositoryFolder.ShortDiverter, "--symptom", "constant", "--yes", "--data", Data, "--json"];
        Finished before = (await BenchProgram.RunAsync([.. common, "--position", "position-1", "--serial", "ND4-1"])).Said(4);
        Assert.Contains("Run a known good unit at this position", before.Output, StringComparison.Ordinal);

        // The known good unit goes to the same place; here the other position's, under the first one's name.
        string swapped = _folder.Write("swapped.toml", Swapped(await File.ReadAllTextAsync(sim.BenchFile, TestContext.Current.CancellationToken)));
        (await BenchProgram.RunAsync([.. common.Select(c => c == sim.BenchFile ? swapped : c), "--position", "position-1", "--serial", "ND4-2"])).Said(0);
        JsonElement after = (await BenchProgram.RunAsync([.. common, "--position", "position-1", "--serial", "ND4-1"])).Said(0).Json();
        Assert.Equal("open-winding", after.GetProperty("causes")[0].GetProperty("cause").GetString());
    }

    private static string Swapped(string bench) =>
        bench.Replace("\"position-1\"", "\"position-x\"", StringComparison.Ordinal)
            .Replace("\"position-2\"", "\"position-1\"", StringComparison.Ordinal)
            .Replace("\"position-x\"", "\"position-2\"", StringComparison.Ordinal);

    [Fact]
    public async Task Run_CtrlCWithTwoUnits_EndsBothConfirmedOff()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy", "healthy");
        await using RunningProgram run = Start(sim, "--json");
        await MovingAsync(run, 2);
        await run.SignalAsync("INT");
        JsonElement[] units = [.. (await run.EndAsync()).Said(130).Json().EnumerateArray()];
        Assert.Equal(2, units.Length);
        Assert.All(units, u => Assert.Equal("cancelled", u.GetProperty("abort").GetString()));
        Assert.All(units, u => Assert.True(u.GetProperty("outputs_confirmed_off").GetBoolean()));
        JsonElement check = (await BenchProgram.RunAsync("check", "--json", "--bench", sim.BenchFile)).Json();
        Assert.All(check.GetProperty("outputs").EnumerateArray(), o => Assert.Equal("off", o.GetProperty("state").GetString()));
    }

    [Fact]
    public async Task Run_KilledWithTwoUnits_BothAreRecoveredByTheNextStart()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy", "healthy");
        await using (RunningProgram run = Start(sim))
        {
            await MovingAsync(run, 2);
            await run.SignalAsync("KILL");
            await run.EndAsync();
        }

        (await BenchProgram.RunAsync("safe", "--bench", sim.BenchFile)).Said(0);
        await using RunningProgram next = Start(sim, "--json");
        await MovingAsync(next, 4);
        await next.SignalAsync("TERM");
        (await next.EndAsync()).Said(130, "of unit ND4-1 was cut short", "of unit ND4-2 was cut short");
        JsonElement[] runs = [.. (await BenchProgram.RunAsync("runs", "--json", "--data", Data)).Said(0).Json().EnumerateArray()];
        Assert.Equal(4, runs.Length);
        (await BenchProgram.RunAsync("verify", "--data", Data)).Said(0);
    }

    [Theory]
    [InlineData("give one of them", "--unit", "position-1=A", "--serial", "B")]
    [InlineData("'--position' goes with '--serial'", "--unit", "position-1=A", "--position", "position-1")]
    [InlineData("position 'position-1' holds A already", "--unit", "position-1=A", "--unit", "position-1=B")]
    [InlineData("A is at 'position-1' already", "--unit", "position-1=A", "--unit", "position-2=A")]
    public async Task Run_UnitsThatCannotBe_IsRefusedBeforeAnythingIsOpened(string words, params string[] options)
    {
        string bench = _folder.Write(
            "bench.toml", StandardBench.OnTcpPort("127.0.0.1", 1, [DriveKind.Reversing, DriveKind.Reversing], DateOnly.FromDateTime(DateTime.UtcNow)));
        (await BenchProgram.RunAsync(
            ["run", "--bench", bench, "--profile", RepositoryFolder.ShortDiverter, "--symptom", "constant", "--data", Data, .. options])).OnlySaid(2, words);
        Assert.False(Directory.Exists(Data));
    }

    private string Data => _folder.At("data");

    private RunningProgram Start(SimProgram sim, params string[] more) =>
        // `env` gives back SIGINT its default, which whoever started the tests may have turned off for all its children.
        RunningProgram.Start("env",
        [
            "--default-signal=INT", BenchProgram.Path, "run", "--bench", sim.BenchFile, "--profile", RepositoryFolder.ShortDiverter,
            "--unit", "position-1=ND4-1", "--unit", "position-2=ND4-2", "--symptom", "intermittent", "--yes", "--data", Data, .. more,
        ]);

    // The log tells of each run that its drive is about to go on.
    private async Task MovingAsync(RunningProgram run, int runsSoFar)
    {
        await run.PrintsAsync("homing: ");
        await Polling.UntilAsync(() => Directory.GetFiles(_folder.At("data", "logs")).SelectMany(f => Polling.TextOf(f).Split('\n'))
            .Where(l => l.Contains("drive up: on", StringComparison.Ordinal) && l.EndsWith('}'))
            .Select(l => JsonDocument.Parse(l).RootElement.GetProperty("Run").GetString())
            .Distinct().Count() == runsSoFar);
    }
}
