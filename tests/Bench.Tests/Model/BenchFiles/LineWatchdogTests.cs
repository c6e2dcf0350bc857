using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>The watchdog of a board that talks lines, in the bench file.</summary>
public class LineWatchdogTests
{
    private const string Watchdog =
        "off = \"off\"\n[device.watchdog]\narm = \"watchdog {value}\"\narmed = \"watchdog {value} set\"\nask = \"watchdog?\"\nanswer = \"watchdog {value}\"\nunit_ms = 10\ntimeout_ms = 1000";

    /// <summary>Boards that talk lines, the relays with a watchdog.</summary>
    internal static readonly string Text = Refusal.Break(RepositoryFiles.Text("fixtures/benches/line-boards.toml"), "off = \"off\"", Watchdog);

    [Fact]
    public void Read_LineWatchdog_GivesItsLines()
    {
        WatchdogDescription watchdog = BenchFileReader.Read(Text, "b.toml").Devices[0].Watchdog!;
        Assert.Equal((ushort)100, watchdog.Value);
        Assert.Equal("watchdog 100", watchdog.Lines!.Arm.Fill(_ => "100"));
        Assert.Equal(("watchdog {value} set", "watchdog?", "watchdog {value}"), (watchdog.Lines.Armed!.Text, watchdog.Lines.Ask.Text, watchdog.Lines.Answer.Text));
        Assert.True(SchemaTests.BenchPasses(Text));
    }

    [Theory]
    [InlineData("arm = \"watchdog {value}\"\n", "", "device[1].watchdog.arm: found nothing; this key is required", true)]
    [InlineData("arm = \"watchdog {value}\"", "arm = \"watchdog on\"", "device[1].watchdog.arm: found \"watchdog on\"; the field {value} is required", false)]
    [InlineData("ask = \"watchdog?\"", "ask = \"watchdog {value}?\"", "device[1].watchdog.ask: found \"watchdog {value}?\"; there is no field {value} here", false)]
    [InlineData("answer = \"watchdog {value}\"\n", "", "device[1].watchdog.answer: found nothing; this key is required", true)]
    [InlineData("arm = \"watchdog {value}\"", "arm = \"watchdog {value}\"\nholding_register = 0", "device[1].watchdog.holding_register: found an unknown key; ", true)]
    [InlineData("timeout_ms = 1000", "timeout_ms = 100", "device[1].watchdog.timeout_ms: found 100; ", true)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected, bool inSchema)
    {
        string text = Refusal.Break(Text, part, by);
        string[] messages = Refusal.Messages(() => BenchFileReader.Read(text, "b.toml"));
        Assert.True(messages.Any(m => m.Contains(expected, StringComparison.Ordinal)), string.Join("\n", messages));
        if (inSchema)
        {
            Assert.False(SchemaTests.BenchPasses(text));
        }
    }
}
