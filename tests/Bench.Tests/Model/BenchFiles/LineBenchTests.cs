using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Reading a bench whose boards talk lines.</summary>
public class LineBenchTests
{
    private static readonly string Text = RepositoryFiles.Text("fixtures/benches/line-boards.toml");

    [Fact]
    public void Read_LineBoards_GivesTheirTemplates()
    {
        BenchFile bench = BenchFileReader.Read(Text, "b.toml");
        LineSyntax relays = bench.Devices[0].Lines!;
        Assert.Equal(("\r", "relay {channel} {state}", "on", "off"), (relays.End, relays.Switch!.Text, relays.On, relays.Off));
        Assert.Null(relays.AskValue);
        Assert.Equal(("\r\n", "1"), (bench.Devices[2].Lines!.End, bench.Devices[2].Lines!.On));
        Assert.Equal(Channel.Asked("relays", "K2"), bench.Positions[0].Down);
        Assert.Equal(Channel.Asked("meters", "X2", activeLow: true), bench.Positions[0].EmergencyStop);
        Assert.Equal((1.0, 0.001), (bench.Positions[0].Current.Scale, bench.Positions[0].Voltage.Scale));
    }

    [Theory]
    [InlineData("tcp_port = 4001", "", "link[2].tcp_port: found nothing; this key is required", true)]
    [InlineData("ask_value = \"<{channel}>\"", "ask_value = \"<{chanel}>\"", "device[3].lines.ask_value: found \"<{chanel}>\"; there is no field {chanel} here; did you mean 'channel'?", false)]
    [InlineData("ask_value = \"<{channel}>\"", "ask_value = \"position\"", "device[3].lines.ask_value: found \"position\"; the field {channel} is required", false)]
    [InlineData("ask_value = \"<{channel}>\"", "ask_valeu = \"<{channel}>\"", "device[3].lines.ask_valeu: found an unknown key; did you mean 'ask_value'?", true)]
    [InlineData("ask_value = \"<{channel}>\"", "", "device[3].lines.value: found \"<{channel}:{value}>\"; ask_value is required beside it: it is the answer to that", true)]
    [InlineData("value = \"<{channel}:{value}>\"", "value = \"<{channel}{value}>\"", "device[3].lines.value: found \"<{channel}{value}>\"; text is needed between two fields", false)]
    [InlineData("terminator = \"cr\"\nask_state", "terminator = \"lf\"\nask_state", "device[2].lines.terminator: found \"lf\"; devices on one link end their lines alike, \"cr\" here", false)]
    [InlineData("terminator = \"cr\"\nswitch =", "terminator = \"nl\"\nswitch =", "device[1].lines.terminator: found \"nl\"; allowed: \"crlf\", \"cr\", \"lf\"", true)]
    [InlineData("off = \"off\"", "off = \"on\"", "device[1].lines.off: found \"on\"; on and off must be different words", false)]
    [InlineData("on = \"on\"", "on = \"switched on\"", "device[1].lines.on: found \"switched on\"; letters, digits and signs of ASCII without blanks are allowed, at most 32", true)]
    [InlineData("link = \"converter\"", "link = \"converter\"\naddress = 3", "device[3].address: found 3; an address, if there is one, stands in the templates of [device.lines]; remove it", true)]
    [InlineData("line = \"K1\"", "coil = 1", "position[1].up.line: found nothing; this key is required", false)]
    [InlineData("line = \"K1\"", "line = \"K 1\"", "position[1].up.line: found \"K 1\"; a channel's name is letters, digits and signs of ASCII without blanks, at most 32", true)]
    [InlineData("{ device = \"relays\", line = \"K2\" }", "{ device = \"relays\", line = \"K1\" }", "position[1].down: found K1 of relays again; each coil is allowed once", false)]
    [InlineData("{ device = \"relays\", line = \"K2\" }", "{ device = \"meters\", line = \"K2\" }", "position[1].down.device: found \"meters\"; this device has no switch in its [device.lines]; add it, or name another device", false)]
    [InlineData("{ device = \"feedback\", line = \"pos\" }", "{ device = \"relays\", line = \"pos\" }", "position[1].count.device: found \"relays\"; this device has no ask_value in its [device.lines]; add it, or name another device", false)]
    [InlineData("line = \"X1\"", "line = \"X1\", bit = 3", "position[1].index.bit: found 3; only a register has bits; remove it", true)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected, bool inSchema)
    {
        string text = Refusal.Break(Text, part, by);
        Assert.Contains(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")), m => m.Contains(expected, StringComparison.Ordinal));
        Assert.Equal(!inSchema, SchemaTests.BenchPasses(text));
    }

    [Fact]
    public void Read_DeviceWithoutLines_SaysThatTheyAreRequired()
    {
        string text = Refusal.Break(Text, "[device.lines]\nask_value = \"<{channel}>\"\nvalue = \"<{channel}:{value}>\"\n", "");
        Assert.Contains(
            Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")),
            m => m.Contains("device[3].lines: found nothing; the table [device.lines] is required", StringComparison.Ordinal));
    }
}
