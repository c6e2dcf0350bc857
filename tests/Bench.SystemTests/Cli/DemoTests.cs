using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

public class DemoTests
{
    // The keys of docs/cli.md, in its order of meaning; `position_rate_hz` and the like may be null but never absent.
    private static readonly string[] Keys =
    [
        "run", "serial", "position", "family", "condition", "outcome", "disposition", "claim", "abort", "causes", "findings", "reasons", "missing",
        "next_step", "moves", "samples", "duration_s", "position_rate_hz", "sampling", "ring_coverage", "outputs_confirmed_off", "packet", "right",
    ];

    [Theory]
    [InlineData("healthy", "reusable")]
    [InlineData("dead-sensors", "repairable")]
    public async Task Demo_Json_IsOneArrayWithEveryKey(string condition, string disposition)
    {
        using TemporaryFolder folder = new();
        Finished demo = await BenchProgram.RunAsync("demo", "--json", "--only", condition, "--data", folder.Path);
        demo.Said(0, "factor=", "peak_mb=");
        JsonElement[] runs = [.. demo.Json().EnumerateArray()];
        Assert.Equal(2, runs.Length);
        foreach (JsonElement run in runs)
        {
            Assert.Equal(Keys.Order(), run.EnumerateObject().Select(p => p.Name).Order());
            Assert.Equal(condition, run.GetProperty("condition").GetString());
            Assert.Equal("judged", run.GetProperty("outcome").GetString());
            Assert.Equal(disposition, run.GetProperty("disposition").GetString());
            Assert.True(run.GetProperty("right").GetBoolean());
            Assert.True(run.GetProperty("outputs_confirmed_off").GetBoolean());
            Assert.Equal(7, Guid.Parse(run.GetProperty("run").GetString()!).Version);
            string packet = await File.ReadAllTextAsync(run.GetProperty("packet").GetString()!, TestContext.Current.CancellationToken);
            Assert.StartsWith("<!doctype html>", packet, StringComparison.OrdinalIgnoreCase);
            Assert.Contains(run.GetProperty("serial").GetString()!, packet, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Demo_FluidPastTheSeal_IsCondemnedByItsInspectionAndShowsThePhoto()
    {
        using TemporaryFolder folder = new();
        JsonElement run = Assert.Single((await BenchProgram.RunAsync("demo", "--json", "--only", "fluid-past-seal", "--data", folder.Path)).Said(0).Json().EnumerateArray());
        Assert.Equal(("scrap", true, 0), (run.GetProperty("disposition").GetString(), run.GetProperty("right").GetBoolean(), run.GetProperty("moves").GetInt32()));
        string packet = await File.ReadAllTextAsync(run.GetProperty("packet").GetString()!, TestContext.Current.CancellationToken);
        Assert.Contains("<img alt=\"drive-side.png\" src=\"data:image/png;base64,", packet, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_UnknownCondition_SaysWhichThereAre()
    {
        using TemporaryFolder folder = new();
        (await BenchProgram.RunAsync("demo", "--only", "haunted", "--data", folder.Path))
            .OnlySaid(2, "--only haunted", "healthy", "seized-valve");
    }
}
