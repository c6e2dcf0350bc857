using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Two runs of a unit: with dead sensors, then repaired.</summary>
public sealed class CompareTests
{
    [Fact]
    public async Task Compare_BeforeAndAfterRepair_SaysBetterOnceTheLabelIsSetRight()
    {
        using TemporaryFolder folder = new();
        Task<Finished> RunAsync(params string[] arguments) => BenchProgram.RunAsync([.. arguments, "--data", folder.At("data")]);
        string before = await DiverterAsync("dead-sensors"), after = await DiverterAsync("healthy");
        (await RunAsync("compare", before, after)).OnlySaid(2, "ND4-10388", "ND4-10417", "--across-units", "bench correct");
        Assert.Equal("better", (await RunAsync("compare", before, after, "--across-units", "--json")).Said(0).Json().GetProperty("outcome").GetString());

        (await RunAsync("correct", before, "--fact", "serial", "--to", "ND4-10417", "--because", "label misread", "--by", "R. Alder")).Said(0);
        JsonElement json = (await RunAsync("compare", before, after, "--json")).Said(0).Json();
        Assert.True(json.GetProperty("same_unit").GetBoolean());
        Assert.Equal("A came out repairable, claim confirmed; B came out reusable, claim not-reproduced.", json.GetProperty("found")[0].GetString());
        Assert.Equal(6, json.GetProperty("sensors").GetProperty("newly_seen").GetArrayLength());

        string file = folder.At("out", "before-after.pdf");
        Assert.Equal(file, (await RunAsync("compare", before, after, "--out", file)).Said(0).Output.Trim());
        Assert.StartsWith("%PDF", await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken), StringComparison.Ordinal);

        async Task<string> DiverterAsync(string condition) =>
            (await RunAsync("demo", "--only", condition, "--json")).Said(0).Json().EnumerateArray()
            .Single(r => r.GetProperty("family").GetString() == "nutrient-diverter-4").GetProperty("run").GetString()!;
    }
}
