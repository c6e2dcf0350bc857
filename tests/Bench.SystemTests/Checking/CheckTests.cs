using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Checking;

/// <summary><c>bench check</c> against <c>bench sim</c>, each a process of its own.</summary>
[Collection(RealTime.Name)]
public sealed class CheckTests : IDisposable
{
    private static readonly string Profile = RepositoryFolder.At("profiles", "nutrient-diverter-4.toml");
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    // What is graded depends on how busy the host is; what is there does not.
    [Fact]
    public async Task Check_BenchOnPty_FindsTimesAndSaysWhatTheRateMeans()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy");
        Finished check = await BenchProgram.RunAsync("check", "--bench", sim.BenchFile, "--profile", Profile, "--json");
        JsonElement found = check.Json();
        Assert.Equal(["io", "feedback-1"], found.GetProperty("devices").EnumerateArray().Select(d => d.GetProperty("device").GetString()));
        Assert.All(found.GetProperty("devices").EnumerateArray(), d =>
        {
            Assert.True(d.GetProperty("answered").GetBoolean());
            Assert.Equal(400, d.GetProperty("reads").GetInt32());
            Assert.True(d.GetProperty("round_trip_p50_ms").GetDouble() > 2); // 115200 baud: the wire alone takes longer
        });
        JsonElement position = Assert.Single(found.GetProperty("positions").EnumerateArray().ToArray());
        Assert.InRange(position.GetProperty("position_rate_hz").GetDouble(), 10, 160);
        Assert.InRange(position.GetProperty("sightings").GetProperty("sighting_probability").GetDouble(), 0.03, 0.65);
        Assert.All(found.GetProperty("outputs").EnumerateArray(), o => Assert.True(o.GetProperty("confirmed_off").GetBoolean()));
        Assert.True(check.Code == (found.GetProperty("can_run").GetBoolean() ? 0 : 3));
    }

    [Fact]
    public async Task Check_FeedbackSilent_SaysWhatToMendAndExits3()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        string wrong = _folder.Write("wrong.toml", (await File.ReadAllTextAsync(sim.BenchFile, TestContext.Current.CancellationToken)).Replace("address = 11", "address = 99", StringComparison.Ordinal));
        Finished check = await BenchProgram.RunAsync("check", "--bench", wrong);
        check.Said(3, "To mend: feedback-1: no answer at address 99 on bus: is a unit in place");
        Assert.Contains("feedback-1 (address 99 on bus): failing; NO ANSWER", check.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Discover_OnPty_FindsEveryDeviceAndPrintsLines()
    {
        await using SimProgram sim = await SimProgram.OnPtyAsync(_folder, "healthy", "healthy");
        string port = File.ReadLines(sim.BenchFile).Single(l => l.StartsWith("port = ", StringComparison.Ordinal))[7..].Trim('\'');
        Finished walk = await BenchProgram.RunAsync("check", "--discover", port, "--addresses", "1-14", "--speeds", "115200");
        walk.Said(0, "Address 1 answers at 115200 baud", "Address 11 answers", "Address 12 answers");
        Assert.Contains($"port = '{port}'", walk.Output, StringComparison.Ordinal);
        Assert.Equal(3, walk.Output.Split("[[device]]").Length - 1);
    }

    [Fact]
    public async Task Discover_OnTcp_FindsEveryDevice()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        string port = File.ReadLines(sim.BenchFile).Single(l => l.StartsWith("tcp_port = ", StringComparison.Ordinal))[11..];
        Finished walk = await BenchProgram.RunAsync("check", "--discover", $"127.0.0.1:{port}", "--addresses", "1-12", "--json");
        Assert.Equal([1, 11], walk.Json().GetProperty("devices").EnumerateArray().Select(d => d.GetProperty("address").GetInt32()));
    }

    [Fact]
    public async Task Discover_Interrupted_TellsWhatItFoundAndExits130()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        string port = File.ReadLines(sim.BenchFile).Single(l => l.StartsWith("tcp_port = ", StringComparison.Ordinal))[11..];
        await using RunningProgram walk = BenchProgram.Start("check", "--discover", $"127.0.0.1:{port}");
        await walk.PrintsAsync("Address 1 answers");
        await walk.SignalAsync("INT");
        Finished end = (await walk.EndAsync()).Said(130, "Stopped.");
        Assert.Contains("name = \"device-1\"", end.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Exercise_NobodyToConfirm_EnergisesNothing()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        Finished end = await BenchProgram.RunAsync(
            "check", "--exercise", "--bench", sim.BenchFile, "--profile", Profile, "--with-unit", "ND4-1", "--data", _folder.At("data"));
        end.Said(2, "It WILL TURN", "there is nobody to ask", "nothing was energised");
        Assert.DoesNotContain(Directory.EnumerateFiles(_folder.At("data", "logs")), f => File.ReadAllText(f).Contains(": on\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Exercise_Confirmed_PulsesEachOutputAndLogsIt()
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        Finished end = await BenchProgram.RunAsync(
            "check", "--exercise", "--bench", sim.BenchFile, "--profile", Profile, "--with-unit", "ND4-1", "--yes", "--json", "--data", _folder.At("data"));
        JsonElement result = end.Said(0).Json();
        Assert.True(result.GetProperty("outputs_confirmed_off").GetBoolean());
        Assert.Equal(["up", "down"], result.GetProperty("pulses").EnumerateArray().Select(p => p.GetProperty("read_back_on").GetString()));
        string log = string.Concat(Directory.EnumerateFiles(_folder.At("data", "logs")).Select(File.ReadAllText));
        Assert.Contains("drive up: on", log, StringComparison.Ordinal);
        Assert.Contains("drive: off, read back", log, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--bench FILE is missing", "check")]
    [InlineData("--position, --with-unit and --yes go with --exercise", "check", "--bench", "x.toml", "--yes")]
    [InlineData("--exercise needs --profile FILE", "check", "--bench", "x.toml", "--exercise")]
    [InlineData("stand alone", "check", "--ports", "--exercise")]
    [InlineData("--addresses and --speeds go with --discover", "check", "--bench", "x.toml", "--speeds", "9600")]
    [InlineData("addresses are 1 to 247", "check", "--discover", "COM1", "--addresses", "0")]
    [InlineData("a TCP link has no speed", "check", "--discover", "localhost:502", "--speeds", "9600")]
    [InlineData("'bench check --ports' lists them", "check", "--discover", "nowhere")]
    public async Task Check_OptionsThatDoNotGoTogether_AreRefused(string words, params string[] arguments) =>
        (await BenchProgram.RunAsync(arguments)).OnlySaid(2, words);
}
