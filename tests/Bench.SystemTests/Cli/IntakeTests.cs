using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

public sealed class IntakeTests : IDisposable
{
    private const string Dry =
        """
        schema = 1
        serial = "ND4-10417"
        return_number = "R-118"
        symptom = "intermittent"
        days_in_service = 411
        measured = ["supply voltage = 23.8 V"]
        attach = ["seen.txt"]

        [inspection]
        connector = "sound"
        housing = "whole"
        drive-side = "dry"
        shaft = "firm"

        """;

    private readonly TemporaryFolder _folder = new();

    public IntakeTests() => _folder.Write("seen.txt", "Stops at C on humid days.");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Intake_OfAFileWithAnAttachment_IsListedAndHoldsInVerify()
    {
        JsonElement taken = (await IntakeAsync(Dry, "--json")).Said(0, "Before the unit is touched", "gloves").Json();

        Assert.True(taken.GetProperty("may_be_energised").GetBoolean());
        JsonElement attachment = Assert.Single(taken.GetProperty("return").GetProperty("attachments").EnumerateArray());
        Assert.Equal("text/plain", attachment.GetProperty("media_type").GetString());
        Assert.True(File.Exists(_folder.At("data", "attachments", attachment.GetProperty("sha256").GetString()!)));
        Assert.Contains("R-118", (await RunAsync("intake", "--list", "--of", "ND4-10417")).Said(0).Output, StringComparison.Ordinal);
        (await RunAsync("verify")).Said(0);
    }

    [Fact]
    public async Task Intake_OptionsBesideAFile_OverrideItsAnswers()
    {
        JsonElement taken = (await IntakeAsync(Dry, "--json", "--days-in-service", "12", "--found", "shaft=loose")).Said(0).Json().GetProperty("return");

        Assert.Equal(12, taken.GetProperty("days_in_service").GetInt32());
        Assert.Equal("loose", taken.GetProperty("inspection").EnumerateArray().Single(a => a.GetProperty("item").GetString() == "shaft").GetProperty("answer").GetString());
    }

    [Fact]
    public async Task Intake_ManyMistakes_TellsAllAtOnceAndKeepsNothing()
    {
        (await RunAsync(
            "intake", "--profile", RepositoryFolder.Diverter, "--serial", "", "--symptom", "sometimes", "--days-in-service", "-3", "--measured", "about 24 volts",
            "--found", "drive-side=moist", "--found", "colour=grey", "--attach", _folder.At("none.jpg")))
            .OnlySaid(2, "serial: ", "return_number: ", "'sometimes'", "'-3'", "'about 24 volts'", "'moist'", "inspection.colour", "none.jpg", "Nothing was taken in.");
        Assert.False(Directory.Exists(_folder.At("data")));
    }

    [Fact]
    public async Task Intake_NumberOfAnotherUnit_IsRefused()
    {
        (await IntakeAsync(Dry)).Said(0);
        (await IntakeAsync(Dry, "--serial", "ND4-20000")).OnlySaid(2, "R-118 is that of unit ND4-10417");
    }

    [Fact]
    public async Task Run_ReturnWithFluidInTheDriveSide_IsRefusedThenCondemnedWithoutABenchAndKnownWhenItIsBack()
    {
        // Nothing serves this port: whoever opened the bench would fail.
        string[] run = ["run", "--bench", BenchFiles.OnTcp(_folder, 1), "--profile", RepositoryFolder.Diverter, "--return", "R-118", "--yes", "--json"];
        (await IntakeAsync(Dry.Replace("\"dry\"", "\"wet\"", StringComparison.Ordinal))).Said(0);

        (await RunAsync(run)).OnlySaid(2, "ND4-10417", "must not be energised", "--inspect-only");
        JsonElement judged = (await RunAsync([.. run, "--inspect-only"])).Said(0).Json();
        Assert.Equal("scrap", judged.GetProperty("disposition").GetString());
        string back = (await IntakeAsync(Dry, "--return-number", "R-240")).Said(0).Output;
        Assert.Contains("■ Repeat return: unit ND4-10417 was here before, 1 run and 1 other return.", back, StringComparison.Ordinal);
        Assert.Contains("0 days ago: scrap", back, StringComparison.Ordinal);
        (await RunAsync("verify")).Said(0);
    }

    [Fact]
    public async Task Run_UnitsFileThatNamesAReturn_TakesItIn()
    {
        (await IntakeAsync(Dry)).Said(0);
        string units = _folder.Write("units.toml", "schema = 1\n[[unit]]\nposition = \"position-1\"\nreturn = \"R-118\"\n");
        string[] run = ["run", "--bench", BenchFiles.OnTcp(_folder, 1), "--profile", RepositoryFolder.Diverter, "--units", units, "--inspect-only", "--json"];
        JsonElement held = Assert.Single((await RunAsync(run)).Said(4).Json().EnumerateArray());
        Assert.Equal("ND4-10417", held.GetProperty("serial").GetString());
        _folder.Write("units.toml", "schema = 1\n[[unit]]\nposition = \"position-1\"\nreturn = \"R-9\"\n");
        (await RunAsync(run)).OnlySaid(2, "return R-9", "bench intake --list");
        _folder.Write("units.toml", "schema = 1\n[[unit]]\nposition = \"position-1\"\nreturn = \"R-118\"\nserial = \"ND4-1\"\n");
        (await RunAsync(run)).OnlySaid(2, "unit[1].return", "leave those out");
    }

    [Fact]
    public async Task Correct_AnswerOfTheInspection_ChangesWhatItIsJudgedBy()
    {
        (await IntakeAsync(Dry)).Said(0);
        string id = (await RunAsync("run", "--bench", BenchFiles.OnTcp(_folder, 1), "--profile", RepositoryFolder.Diverter, "--return", "R-118", "--inspect-only", "--json"))
            .Said(4).Json().GetProperty("run").GetString()!;
        string[] correct = ["correct", id, "--because", "looked again", "--by", "R. Alder"];
        (await RunAsync([.. correct, "--fact", "inspection.colour", "--to", "wet"])).OnlySaid(2, "no item 'colour'", "drive-side");
        (await RunAsync([.. correct, "--fact", "inspection.drive-side", "--to", "moist"])).OnlySaid(2, "'moist'", "damp");
        (await RunAsync([.. correct, "--fact", "days-in-service", "--to", "-1"])).OnlySaid(2, "0 to 36525");
        (await RunAsync([.. correct, "--fact", "colour", "--to", "red"])).OnlySaid(2, "--fact 'colour'", "inspection.ITEM");
        (await RunAsync([.. correct, "--fact", "days-in-service", "--to", "400"])).Said(0);
        (await RunAsync([.. correct, "--fact", "inspection.drive-side", "--to", "wet"])).Said(0, "judge again");
        Assert.Equal("scrap", (await RunAsync("judge", id, "--json")).Said(0).Json().GetProperty("disposition").GetString());
        Assert.Contains("inspection item drive-side set right by R. Alder from “dry” to “wet”", (await RunAsync("show", id)).Said(0).Output.ReplaceLineEndings(" ").Replace("        ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        (await RunAsync("verify")).Said(0);
    }

    [Fact]
    public async Task Run_SoundReturnInspectedOnly_IsHeldForARun()
    {
        (await IntakeAsync(Dry)).Said(0);
        (await RunAsync("run", "--bench", BenchFiles.OnTcp(_folder, 1), "--profile", RepositoryFolder.Diverter, "--return", "R-118", "--inspect-only")).Said(4);
    }

    [Theory]
    [InlineData("R-9", "no return of that number")]
    [InlineData("R-118", "name units in four ways", "--serial", "ND4-1")]
    [InlineData("R-118", "'--return' brings symptom", "--symptom", "constant")]
    public async Task Run_ReturnThatCannotBe_IsRefused(string number, string words, params string[] more)
    {
        (await IntakeAsync(Dry)).Said(0);
        (await RunAsync(["run", "--bench", BenchFiles.OnTcp(_folder, 1), "--profile", RepositoryFolder.Diverter, "--return", number, "--yes", .. more])).OnlySaid(2, words);
    }

    private Task<Finished> IntakeAsync(string file, params string[] more) =>
        RunAsync(["intake", "--profile", RepositoryFolder.Diverter, "--file", _folder.Write("in.toml", file), .. more]);

    private Task<Finished> RunAsync(params string[] arguments) => BenchProgram.RunAsync([.. arguments, "--data", _folder.At("data")]);
}
