using Bench.Model.Profiles;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>What a person may get wrong before anything is touched: one message, exit code 2, no run.</summary>
public sealed class BadInputTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("", "--serial: empty")]
    [InlineData("   ", "--serial: empty")]
    [InlineData("12345678901234567890123456789012345678901234567890123456789012345", "--serial: 65 characters; at most 64")]
    [InlineData("ND4\u0007", "U+0007")]
    [InlineData("ND4\u001b[2J", "U+001B")]
    [InlineData("ND4\n10417", "U+000A")]
    [InlineData("ND4\u202e71401", "U+202E")]
    public async Task Run_SerialThatNoLabelHas_IsRefused(string serial, string words) =>
        await RefusedAsync(["--serial", serial], words);

    [Theory]
    [InlineData("7")]
    [InlineData("sometimes")]
    [InlineData("")]
    public async Task Run_UnknownSymptom_IsRefused(string symptom) => await RefusedAsync(["--symptom", symptom], "constant", "intermittent");

    [Fact]
    public async Task Run_PartOfAnotherFamily_IsRefused() =>
        await RefusedAsync(["--part", "ZS3-1200"], "--part ZS3-1200", "nutrient-diverter-4", "ND4-2400, ND4-2401");

    [Fact]
    public async Task Run_UnknownPosition_SaysWhichThereAre() =>
        await RefusedAsync(["--position", "position-9"], "--position position-9", "position-1");

    [Fact]
    public async Task Run_ReversingProfileOnAPositionOfOneDirection_IsRefused() => await RefusedAsync(
        ["--bench", BenchFiles.OnTcp(_folder, 1, DriveKind.Single)], "wired for one direction", "needs a reversing drive");

    [Theory]
    [InlineData("--bench", "bench file")]
    [InlineData("--profile", "profile")]
    public async Task Run_FileThatIsNotThere_IsRefused(string option, string what)
    {
        string none = _folder.At("none.toml");
        await RefusedAsync([option, none], none, $"no such {what}");
        await RefusedAsync([option, _folder.Path], _folder.Path, $"no such {what}");
    }

    [Fact]
    public async Task Run_BenchFileThatIsNoToml_SaysTheLine()
    {
        string broken = _folder.Write("broken.toml", "schema = 1\n\n[bench\nname = \"x\"\n");
        await RefusedAsync(["--bench", broken], $"{broken}:3");
    }

    [Fact]
    public async Task Run_FilesInEachOthersPlace_IsOneSentence()
    {
        await RefusedAsync(["--bench", RepositoryFolder.ShortDiverter], "found a profile; a bench file is needed here; give this profile with --profile", "1 error; nothing was energised.");
        await RefusedAsync(["--profile", BenchFiles.OnTcp(_folder, 1)], "found a bench file; a profile is needed here; give this bench file with --bench", "1 error; nothing was energised.");
    }

    [Fact]
    public async Task Run_BenchFileWithThreeMistakes_TellsAllThree()
    {
        string text = (await File.ReadAllTextAsync(BenchFiles.OnTcp(_folder, 1), TestContext.Current.CancellationToken))
            .Replace("supply_current_limit_a = 3.0", "supply_current_limit_a = 3000", StringComparison.Ordinal)
            .Replace("host = ", "hosst = ", StringComparison.Ordinal)
            .Replace("timeout_ms = 40", "timeout_ms = 1", StringComparison.Ordinal);
        string wrong = _folder.Write("wrong.toml", text);
        await RefusedAsync(["--bench", wrong], "supply_current_limit_a", "hosst", "timeout_ms", "nothing was energised");
    }

    [Fact]
    public async Task Run_BinaryProfile_IsRefused()
    {
        string binary = _folder.At("binary.toml");
        await File.WriteAllBytesAsync(binary, [0, 159, 146, 150, 255, 254], TestContext.Current.CancellationToken);
        await RefusedAsync(["--profile", binary], binary);
    }

    [Fact]
    public async Task Run_DataFolderIsAFile_IsRefused()
    {
        string file = _folder.Write("data", "");
        await RefusedAsync(["--data", file], file);
    }

    [Fact]
    public async Task Run_NothingGiven_NamesEveryMissingOption() =>
        (await BenchProgram.RunAsync("run")).OnlySaid(2, "'--bench'", "'--profile'", "'--serial'", "'--symptom'");

    [Theory]
    [InlineData("haunted", "haunted", "healthy")]
    [InlineData("water-wheel=healthy", "water-wheel", "nutrient-diverter-4")]
    public async Task Sim_UnknownUnit_SaysWhichThereAre(string unit, params string[] words) =>
        (await BenchProgram.RunAsync("sim", "--unit", unit, "--bench-file", _folder.At("sim.toml"))).OnlySaid(2, words);

    [Theory]
    [InlineData("70000", "sim.toml", "--tcp 70000")]
    [InlineData("-1", "sim.toml", "--tcp -1")]
    [InlineData("0", "no-such-folder/sim.toml", "no-such-folder")]
    public async Task Sim_PlaceThatCannotBe_IsRefused(string port, string file, string words) =>
        (await BenchProgram.RunAsync("sim", "--tcp", port, "--bench-file", _folder.At(file))).OnlySaid(2, words);

    [Fact]
    public async Task ProfileCheck_GoodAndBad_TellsBoth()
    {
        string bad = _folder.Write("bad.toml", "schema = 1\n");
        (await BenchProgram.RunAsync("profile", "check", RepositoryFolder.ShortDiverter, bad)).Said(2, bad);
        Assert.Equal(2, (await BenchProgram.RunAsync("profile", "check", bad, "--json")).Json().EnumerateObject().Count());
    }

    // A later option takes the place of the usual one.
    private async Task RefusedAsync(string[] options, params string[] words)
    {
        List<string> line = ["run", "--yes", "--json"];
        (string Option, string Value)[] usual =
        [
            ("--bench", BenchFilesUnlessGiven(options)), ("--profile", RepositoryFolder.ShortDiverter), ("--serial", "ND4-1"),
            ("--symptom", "constant"), ("--data", _folder.At("unused")),
        ];
        foreach ((string option, string value) in usual.Where(u => !options.Contains(u.Option)))
        {
            line.AddRange([option, value]);
        }

        (await BenchProgram.RunAsync([.. line, .. options])).OnlySaid(2, words);
        Assert.False(Directory.Exists(_folder.At("unused")));
    }

    private string BenchFilesUnlessGiven(string[] options) => options.Contains("--bench") ? "" : BenchFiles.OnTcp(_folder, 1);
}
