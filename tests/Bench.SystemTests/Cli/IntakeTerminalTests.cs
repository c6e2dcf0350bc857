using System.Text.Json;
using Bench.SystemTests.Devices.Peers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Intake by questions, at a terminal of its own (Python's pty): what a person types, and how.</summary>
public sealed class IntakeTerminalTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Questions_AnsweredSomeWronglyFirst_AskAgainAndTakeItIn()
    {
        string[] typed =
        [
            "ND4-10417", "", "", "", "R-7", "sometimes", "intermittent", "Stops at C.", "about 24 volts", "supply voltage = 23.8 V", "", "many", "411",
            "sound", "whole", "dry", "firm",
        ];
        Finished done = await TypeAsync(string.Concat(typed.Select(t => t + "\\n")));
        Assert.True(done.Code == 0, done.Output);
        Assert.Contains("Reported symptom [constant, intermittent]; required:", done.Output, StringComparison.Ordinal);
        Assert.Contains("'sometimes': ", done.Output, StringComparison.Ordinal);
        Assert.Contains("'about 24 volts': QUANTITY = NUMBER UNIT", done.Output, StringComparison.Ordinal);
        Assert.Contains("'many': a whole number from 0", done.Output, StringComparison.Ordinal);
        JsonElement taken = Assert.Single((await BenchProgram.RunAsync("intake", "--list", "--json", "--data", _folder.At("data"))).Said(0).Json().EnumerateArray());
        JsonElement unit = taken.GetProperty("taken").GetProperty("return");
        Assert.Equal("R-7", unit.GetProperty("return_number").GetString());
        Assert.Equal(411, unit.GetProperty("days_in_service").GetInt32());
        Assert.Equal(4, unit.GetProperty("inspection").GetArrayLength());
    }

    [Theory]
    [InlineData("ND4-10417\\n\\x03", 130, "Nothing was taken in.")]
    [InlineData("ND4-10417\\n\\x04", 2, "The answers ended at")]
    public async Task Questions_LeftHalfWay_KeepNothing(string keys, int code, string said)
    {
        Finished done = await TypeAsync(keys);
        Assert.True(code == done.Code, $"{done.Code}: {done.Output}");
        Assert.Contains(said, done.Output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.At("data")));
    }

    private async Task<Finished> TypeAsync(string keys)
    {
        Peer.Need("python3");
        await using RunningProgram run = TypedProgram.Start(keys, "intake", "--profile", RepositoryFolder.Diverter, "--data", _folder.At("data"));
        return await run.EndAsync();
    }
}
