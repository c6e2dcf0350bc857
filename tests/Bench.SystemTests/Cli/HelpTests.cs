using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>
/// Help as a user sees it, held against golden text: its diff is the notice that the command line changed. To renew the
/// files, run these tests with BENCH_RENEW_GOLDEN=1 and look at the diff.
/// </summary>
public class HelpTests
{
    [Fact]
    public async Task Help_Always_ListsAllVerbs()
    {
        Finished help = (await BenchProgram.RunAsync("--help")).Said(0);
        foreach (string verb in (string[])["demo", "intake", "run", "check", "safe", "runs", "show", "report", "export", "compare", "judge", "correct", "note", "sign", "verify", "key", "backup", "restore", "retain", "profile", "sim"])
        {
            Assert.Matches($@"(?m)^  {verb}\b", help.Output);
        }
    }

    [Theory]
    [InlineData("bench")]
    [InlineData("demo", "demo")]
    [InlineData("intake", "intake")]
    [InlineData("run", "run")]
    [InlineData("check", "check")]
    [InlineData("safe", "safe")]
    [InlineData("runs", "runs")]
    [InlineData("show", "show")]
    [InlineData("report", "report")]
    [InlineData("export", "export")]
    [InlineData("compare", "compare")]
    [InlineData("judge", "judge")]
    [InlineData("correct", "correct")]
    [InlineData("note", "note")]
    [InlineData("sign", "sign")]
    [InlineData("verify", "verify")]
    [InlineData("key", "key")]
    [InlineData("key-make", "key", "make")]
    [InlineData("backup", "backup")]
    [InlineData("restore", "restore")]
    [InlineData("retain", "retain")]
    [InlineData("profile", "profile")]
    [InlineData("profile-check", "profile", "check")]
    [InlineData("sim", "sim")]
    public async Task Help_OfAVerb_IsAsWritten(string name, params string[] verb)
    {
        Finished help = (await BenchProgram.RunAsync([.. verb, "--help"])).Said(0);
        string golden = RepositoryFolder.At("tests", "Bench.SystemTests", "Cli", "golden", $"{name}.txt");
        string text = string.Join('\n', help.Output.ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd())).TrimEnd() + "\n";
        if (Environment.GetEnvironmentVariable("BENCH_RENEW_GOLDEN") == "1")
        {
            await File.WriteAllTextAsync(golden, text, TestContext.Current.CancellationToken);
        }

        Assert.Equal(await File.ReadAllTextAsync(golden, TestContext.Current.CancellationToken), text);
    }

    [Fact]
    public async Task Help_OfRun_NamesSymptomsAsTheyAreTyped() =>
        Assert.Contains("--symptom <constant|intermittent>", (await BenchProgram.RunAsync("run", "--help")).Output, StringComparison.Ordinal);

    [Theory]
    [InlineData("bogus", "bogus")]
    [InlineData("--bogus", "runs", "--bogus")]
    [InlineData("bogus", "run", "bogus")]
    [InlineData("--seed", "demo", "--seed", "many")]
    [InlineData("command", "profile")]
    public async Task Parse_UnknownVerbOrOption_IsRefusedWithTheWayToHelp(string word, params string[] line) =>
        (await BenchProgram.RunAsync(line)).OnlySaid(2, word, "bench --help");

    [Fact]
    public async Task Parse_UnknownVerb_SaysThatFirstAndWhatThereIs()
    {
        Finished said = (await BenchProgram.RunAsync("bogus")).OnlySaid(2, "bench --help");
        Assert.StartsWith("'bogus' is no verb; bench knows demo, intake, run, check", said.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Required", said.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Version_Asked_IsOneLine() =>
        Assert.Matches(@"^\d+\.\d+\.\d+\n$", (await BenchProgram.RunAsync("--version")).Said(0).Output);
}
