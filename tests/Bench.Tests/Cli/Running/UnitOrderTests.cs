using Bench.Cli;
using Bench.Cli.Running;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Simulation.Benches;
using Bench.Tests.Model;

namespace Bench.Tests.Cli.Running;

public sealed class UnitOrderTests : IDisposable
{
    private static readonly string Diverter = Path.Combine(RepositoryFiles.Root, "profiles", "nutrient-diverter-4.toml");
    private static readonly BenchFile Bench = BenchFileReader.Read(
        StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing, DriveKind.Reversing], new DateOnly(2026, 3, 1)), "bench.toml");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("bench-units-");

    [Fact]
    public void Plan_SeveralUnits_SharesWhatTheOptionsSay()
    {
        IReadOnlyList<PlannedUnit> units = Order("position-2=ND4-2", "position-1=ND4=1").Plan(Bench);
        Assert.Equal(["position-2", "position-1"], units.Select(u => u.Position.Name));
        Assert.Equal(["ND4-2", "ND4=1"], units.Select(u => u.Return.Serial));
        Assert.All(units, u => Assert.Equal((Symptom.Constant, "R-7"), (u.Return.Symptom, u.Return.ReturnNumber)));
    }

    [Theory]
    [InlineData("position-1", "--unit 'position-1': give POSITION=SN, e.g. position-1=")]
    [InlineData("=ND4-1", "--unit '=ND4-1': give POSITION=SN")]
    [InlineData("position-1=", "--unit 'position-1=': give POSITION=SN")]
    [InlineData("position-9=ND4-1", "--unit position-9: bench 'Greenhouse bench' has no such position; there are: position-1, position-2")]
    [InlineData("position-2=ND4-9", "position 'position-2' holds ND4-9 already")]
    [InlineData("position-1=ND4-9", "ND4-9 is at 'position-2' already")]
    public void Plan_UnitThatCannotBe_IsRefused(string unit, string words)
    {
        CliException refused = Assert.Throws<CliException>(() => Order("position-2=ND4-9", unit).Plan(Bench));
        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains(words, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_UnitsFile_TakesFromTheOptionsWhatItLeavesOut()
    {
        string file = Write(
            $"""
            schema = 1
            [[unit]]
            position = "position-1"
            serial = "ND4-1"
            symptom = "intermittent"
            note = "Lost its position twice."
            [[unit]]
            position = "position-2"
            serial = "ND4-2"
            profile = '{Path.GetRelativePath(_folder.FullName, Diverter)}'
            """);
        IReadOnlyList<PlannedUnit> units = new UnitOrder { UnitsFile = file, Profile = Diverter, Symptom = Symptom.Constant, Note = "As the rest." }.Plan(Bench);
        Assert.Equal([Symptom.Intermittent, Symptom.Constant], units.Select(u => u.Return.Symptom));
        Assert.Equal(["Lost its position twice.", "As the rest."], units.Select(u => u.Return.FieldNote));
        Assert.All(units, u => Assert.Equal("nutrient-diverter-4", u.Profile.Family));
    }

    [Fact]
    public void Plan_UnitsFileThatSaysTooLittle_SaysWhereForEachUnit()
    {
        string file = Write("schema = 1\n[[unit]]\nposition = \"position-1\"\nserial = \"ND4-1\"\n[[unit]]\nposition = \"position-2\"\nserial = \"ND4-2\"\n");
        ConfigurationException refused = Assert.Throws<ConfigurationException>(() => new UnitOrder { UnitsFile = file, Profile = Diverter }.Plan(Bench));
        Assert.Equal(
            [
                $"{file}:2: unit[1].symptom: found nothing; say it here, or give --symptom constant|intermittent for all units that do not",
                $"{file}:5: unit[2].symptom: found nothing; say it here, or give --symptom constant|intermittent for all units that do not",
            ],
            refused.Errors.Select(e => e.ToString()));
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static UnitOrder Order(params string[] units) =>
        new() { Units = units, Profile = Diverter, Symptom = Symptom.Constant, ReturnNumber = "R-7" };

    private string Write(string text)
    {
        string path = Path.Combine(_folder.FullName, "units.toml");
        File.WriteAllText(path, text);
        return path;
    }
}
