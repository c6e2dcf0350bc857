using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Campaigns;

/// <summary>The bounded share of tests/campaigns/crash.sh that every change must pass.</summary>
[Collection(RealTime.Name)]
public class CrashTests
{
    [Fact]
    public async Task Crash_TenKills_LoseNothingThatWasAcknowledged() => await HoldsAsync("10", "1", "--kills-only");

    [Fact]
    public async Task Crash_EveryOtherFault_IsNamedAndLosesNothing() => await HoldsAsync("0", "1");

    private static async Task HoldsAsync(params string[] how)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "the campaign kills with SIGKILL and mounts file systems");
        string program = RepositoryFolder.At(".artifacts", "bin", "Bench.Campaigns", new DirectoryInfo(AppContext.BaseDirectory).Name, "Bench.Campaigns");
        await using RunningProgram campaign = RunningProgram.Start(program, ["crash", .. how]);
        Finished end = await campaign.EndAsync(TimeSpan.FromMinutes(5));
        Assert.True(end.Code == 0, end.Output + end.Error);
        Assert.Contains(" lost=0 unnamed=0 ", end.Output, StringComparison.Ordinal);
    }
}
