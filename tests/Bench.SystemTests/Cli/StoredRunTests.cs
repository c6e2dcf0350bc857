using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

public class StoredRunTests(StoredRuns stored) : IClassFixture<StoredRuns>
{
    [Fact]
    public async Task Runs_AfterADemo_ListsThem()
    {
        JsonElement[] listed = [.. (await stored.RunAsync("runs", "--json")).Said(0).Json().EnumerateArray()];
        Assert.Equal(["ND4-10417", "ZS3-20117"], listed.Select(r => r.GetProperty("serial").GetString()!).Order());
        Finished text = (await stored.RunAsync("runs")).Said(0);
        Assert.Contains(stored.Id, text.Output, StringComparison.Ordinal);
        Assert.Contains("not-reproduced", text.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Runs_PagedAndFiltered_SayWhatIsLeftOut()
    {
        Finished first = (await stored.RunAsync("runs", "--limit", "1")).Said(0, "Runs 1 to 1 of 2", "--skip 1 goes on");
        Finished second = (await stored.RunAsync("runs", "--limit", "1", "--skip", "1")).Said(0, "Runs 2 to 2 of 2");
        Assert.NotEqual(first.Output, second.Output);
        (await stored.RunAsync("runs", "--skip", "5")).OnlySaid(0, "--skip 5 passes over all 2 runs");
        (await stored.RunAsync("runs", "--serial", "ND4-0")).OnlySaid(0, "No runs that match --serial");
        Assert.Equal("ZS3-20117", Assert.Single((await stored.RunAsync("runs", "--json", "--family", "zone-selector-3")).Said(0).Json().EnumerateArray()).GetProperty("serial").GetString());
    }

    [Theory]
    [InlineData("--since", "30.06.2026", "2026-06-30T08:00:00Z")]
    [InlineData("--until", "2026-06-30T08:00:00", "2026-06-30T08:00:00Z")]
    [InlineData("--outcome", "good", "'judged', 'held' or 'aborted'")]
    [InlineData("--symptom", "both", "'constant' or 'intermittent'")]
    [InlineData("--limit", "0", "whole number from 1")]
    [InlineData("--skip", "-1", "whole number from 0")]
    public async Task Runs_FilterThatIsNone_SaysWhatIsAllowed(string option, string value, string allowed) =>
        (await stored.RunAsync("runs", $"{option}={value}")).OnlySaid(2, $"{option} '{value}'", allowed);

    [Fact]
    public async Task Runs_UntilBeforeSince_IsRefused() =>
        (await stored.RunAsync("runs", "--since", "2026-06-30", "--until", "2026-06-29")).OnlySaid(2, "--since, --until", "later");

    [Fact]
    public async Task Show_ByPrefix_TellsTheRun()
    {
        Finished text = (await stored.RunAsync("show", stored.Id[..23])).Said(0);
        Assert.Contains("REUSABLE", text.Output, StringComparison.Ordinal);
        Assert.Contains(stored.Id, text.Output, StringComparison.Ordinal);
        JsonElement json = (await stored.RunAsync("show", stored.Id, "--json")).Said(0).Json();
        Assert.True(JsonElement.DeepEquals(stored.Run.GetProperty("findings"), json.GetProperty("findings")));
    }

    [Theory]
    [InlineData("ffffffff")]
    [InlineData("../../etc")]
    [InlineData("%")]
    public async Task Show_NoRunOfThatId_SaysHowToFindOne(string id) =>
        (await stored.RunAsync("show", id)).OnlySaid(2, id, "bench runs");

    [Fact]
    public async Task Show_PrefixOfSeveral_SaysWhichThereAre() =>
        (await stored.RunAsync("show", "0")).OnlySaid(2, "more than one run begins with '0'", stored.Id);

    [Fact]
    public async Task Verify_NothingTouched_IsContent() => (await stored.RunAsync("verify")).Said(0);

    [Fact]
    public async Task Report_IntoAFolder_WritesThePacketOnce()
    {
        string folder = stored.Folder.At("out", "packets");
        Finished report = (await stored.RunAsync("report", stored.Untouched.GetProperty("run").GetString()!, "--out", folder)).Said(0);
        string packet = Assert.Single(Directory.GetFiles(folder));
        Assert.Equal(packet, report.Output.Trim());
        Assert.Equal(
            await File.ReadAllBytesAsync(stored.Untouched.GetProperty("packet").GetString()!, TestContext.Current.CancellationToken),
            await File.ReadAllBytesAsync(packet, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("one.pdf", "%PDF")]
    [InlineData("one.html", "<!DOCTYPE html>")]
    public async Task Report_NamedFile_IsThatFileInItsFormatAndKeptNextTime(string name, string begins)
    {
        string file = stored.Folder.At("named", name);
        Assert.Equal(file, (await stored.RunAsync("report", stored.Id, "--out", file)).Said(0).Output.Trim());
        Assert.StartsWith(begins, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        (await stored.RunAsync("report", stored.Id, "--out", file)).OnlySaid(2, file, "--force");
        (await stored.RunAsync("report", stored.Id, "--out", file, "--force")).Said(0);
    }

    [Fact]
    public async Task Report_NamedFileOfAnotherFormat_SaysSo() =>
        (await stored.RunAsync("report", stored.Id, "--format", "label", "--out", stored.Folder.At("label.html"))).OnlySaid(2, "label.html", "--format label", ".pdf");

    [Fact]
    public async Task Compare_ARunWithItself_ShowsNoDifference()
    {
        JsonElement json = (await stored.RunAsync("compare", stored.Id, stored.Id, "--json")).Said(0).Json();
        Assert.Equal("no-difference-shown", json.GetProperty("outcome").GetString());
        Assert.Equal("A and B are one and the same run.", json.GetProperty("conditions")[0].GetString());
        Assert.Contains("NO-DIFFERENCE-SHOWN", (await stored.RunAsync("compare", stored.Id, stored.Id)).Said(0).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Compare_TwoFamilies_IsRefused() =>
        (await stored.RunAsync("compare", stored.Id, stored.Untouched.GetProperty("run").GetString()!, "--across-units"))
            .OnlySaid(2, "nutrient-diverter-4", "zone-selector-3");

    [Fact]
    public async Task Report_IntoAFile_SaysSo()
    {
        string file = stored.Folder.Write("a-file", "");
        (await stored.RunAsync("report", stored.Id, "--out", file)).OnlySaid(2, file, "--out");
    }

    [Fact]
    public async Task Judge_ByItsOwnProfile_FindsTheSame()
    {
        JsonElement again = (await stored.RunAsync("judge", stored.Id, "--json")).Said(0).Json();
        foreach (string key in (string[])["outcome", "disposition", "claim", "causes", "findings", "reasons", "missing", "next_step"])
        {
            Assert.True(JsonElement.DeepEquals(stored.Run.GetProperty(key), again.GetProperty(key)), key);
        }
    }

    [Fact]
    public async Task Judge_ByATighterLimit_FindsOtherwiseAndTheOldVerdictStays()
    {
        string shipped = await File.ReadAllTextAsync(RepositoryFolder.Diverter, TestContext.Current.CancellationToken);
        string tighter = shipped
            .Replace("feature = \"current.running_a\"\nupper = 0.32", "feature = \"current.running_a\"\nupper = 0.1", StringComparison.Ordinal)
            .Replace("version = \"1.1.0\"", "version = \"1.2.0\"", StringComparison.Ordinal);
        Assert.Contains("upper = 0.1\n", tighter, StringComparison.Ordinal);
        string profile = stored.Folder.Write("tighter.toml", tighter);
        JsonElement judged = (await stored.RunAsync("judge", stored.Id, "--profile", profile, "--json")).Said(0).Json();
        Assert.Equal("repairable", judged.GetProperty("disposition").GetString());
        Assert.Contains("while turning it draws", judged.GetProperty("reasons")[0].GetString(), StringComparison.OrdinalIgnoreCase);
        JsonElement old = (await stored.RunAsync("show", stored.Id, "--json")).Json();
        Assert.Equal("reusable", old.GetProperty("disposition").GetString());
    }

    [Fact]
    public async Task Judge_ByAnotherFamily_IsRefused() =>
        (await stored.RunAsync("judge", stored.Id, "--profile", RepositoryFolder.At("profiles", "zone-selector-3.toml")))
            .OnlySaid(2, "zone-selector-3", "nutrient-diverter-4");

    [Theory]
    [InlineData("runs")]
    [InlineData("show", "0")]
    [InlineData("judge", "0")]
    public async Task AnyVerbOnRuns_NoDataFolder_SaysSo(params string[] verb)
    {
        string none = stored.Folder.At("none");
        (await BenchProgram.RunAsync([.. verb, "--data", none])).OnlySaid(2, none, "--data");
        Assert.False(Directory.Exists(none));
    }
}
