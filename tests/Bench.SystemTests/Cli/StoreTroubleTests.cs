using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>A data folder that can't be written, before a run and in the middle of one.</summary>
[Collection(RealTime.Name)]
public sealed class StoreTroubleTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Run_ReadOnlyDataFolder_IsRefusedBeforeAnythingIsTouched()
    {
        string data = Directory.CreateDirectory(_folder.At("data")).FullName;
        await using Mount mount = await Mount.ReadOnlyAsync(data);
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        (await BenchProgram.RunAsync([.. Line(sim, data), "--serial", "ND4-1"])).OnlySaid(2, data);
        (await BenchProgram.RunAsync("demo", "--only", "healthy", "--data", data)).OnlySaid(2, data);
    }

    [Fact]
    public async Task Run_DiskFillsUpInMidRun_SwitchesOffAndSaysSo()
    {
        string data = Directory.CreateDirectory(_folder.At("data")).FullName;
        await using Mount mount = await Mount.SmallAsync(data, "700k");
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "healthy");
        Finished run = await BenchProgram.RunAsync([.. Line(sim, data), "--serial", "ND4-1"]);
        run.OnlySaid(3, "can't be recorded", "free");
        JsonElement check = (await BenchProgram.RunAsync("check", "--json", "--bench", sim.BenchFile)).Said(0).Json();
        Assert.Equal("off", check.GetProperty("outputs")[0].GetProperty("state").GetString());
    }

    [Fact]
    public async Task Demo_DiskIsFull_SaysSo()
    {
        string data = Directory.CreateDirectory(_folder.At("data")).FullName;
        await using Mount mount = await Mount.SmallAsync(data, "300k");
        (await BenchProgram.RunAsync("demo", "--only", "healthy", "--data", data)).Said(3, "free");
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("../../x")]
    [InlineData("\"; rm -rf ~; '$(reboot)`")]
    [InlineData("{{7*7}} %s \\n & <b>")]
    public async Task Run_HostileSerial_IsHarmlessEverywhere(string serial)
    {
        await using SimProgram sim = await SimProgram.OnTcpAsync(_folder, "seized-valve");
        string data = _folder.At("a", "b", "data");
        JsonElement run = (await BenchProgram.RunAsync([.. Line(sim, data), "--serial", serial, "--note", serial])).Said(0).Json();
        Assert.Equal(serial, run.GetProperty("serial").GetString());
        string packet = run.GetProperty("packet").GetString()!;
        Assert.Equal(Path.Combine(data, "packets"), Path.GetDirectoryName(packet));
        Assert.Matches("^[A-Za-z0-9_-]+\\.html$", Path.GetFileName(packet));
        string html = Polling.TextOf(packet);
        Assert.DoesNotContain("<script>alert", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("& <b>", html, StringComparison.Ordinal);
        Finished shown = (await BenchProgram.RunAsync("show", run.GetProperty("run").GetString()!, "--data", data)).Said(0);
        Assert.Contains(serial, shown.Output, StringComparison.Ordinal);
    }

    private static string[] Line(SimProgram sim, string data) =>
    [
        "run", "--bench", sim.BenchFile, "--profile", RepositoryFolder.ShortDiverter, "--symptom", "constant", "--yes", "--json", "--data", data,
    ];
}
