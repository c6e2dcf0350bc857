using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Reading benches with devices that push frames.</summary>
public class StreamBenchTests
{
    private static readonly string Text = RepositoryFiles.Text("fixtures/benches/streamed-current.toml");

    [Fact]
    public void Read_StreamedCurrent_GivesItsValues()
    {
        BenchFile bench = BenchFileReader.Read(Text, "b.toml");
        Assert.Equal(LinkProtocol.Stream, bench.Links[1].Protocol);
        StreamDescription stream = bench.Devices[2].Stream!;
        Assert.Equal((12, FrameCheckKind.Crc16, 1000.0, 2, 16, ByteOrder.LowFirst), (stream.FrameBytes, stream.Check, stream.RateHz, stream.SequenceOffset, stream.SequenceBits, stream.Bytes));
        Assert.Equal([0xAA, 0x55], stream.Sync);
        Assert.Equal([new StreamField("current", 4, FieldType.Int16), new StreamField("voltage", 6, FieldType.Float32)], stream.Fields);
        Assert.Equal(Channel.Asked("shunt", "current"), bench.Positions[0].Current.Channel);
    }

    [Theory]
    [InlineData("link = \"shunt-line\"\ntimeout_ms = 40", "link = \"shunt-line\"\naddress = 3\ntimeout_ms = 40", "device[3].address: found 3; a stream has none; remove it", true)]
    [InlineData("link = \"shunt-line\"\ntimeout_ms = 40", "link = \"shunt-line\"\ntimeout_ms = 8", "device[3].stream.rate_hz: found 1000; timeout_ms (8) must be at least 10 frames long; write timeout_ms = 10 or more", false)]
    [InlineData("baud = 921600", "baud = 115200", "device[3].stream.rate_hz: found 1000; at 115200 baud at most 960 frames of 12 bytes come a second; raise the link's baud, or lower the device's rate", false)]
    [InlineData("sync = \"AA 55\"", "sync = \"AA 5\"", "device[3].stream.sync: found \"AA 5\"; 1 to 4 bytes in hexadecimal are allowed, such as \"AA 55\"", true)]
    [InlineData("check = \"crc16\"", "check = \"crc32\"", "device[3].stream.check: found \"crc32\"; allowed: \"none\", \"sum8\", \"crc16\"", true)]
    [InlineData("bits = 16 }", "bits = 12 }", "device[3].stream.sequence.bits: found 12; allowed: 8, 16, 32", true)]
    [InlineData("offset = 6\ntype", "offset = 5\ntype", "device[3].stream.field[2].offset: found 5; byte 5 belongs to field 'current' already", false)]
    [InlineData("offset = 6\ntype", "offset = 8\ntype", "device[3].stream.field[2].offset: found 8; field 'voltage' takes 4 bytes and must end before byte 10, where the check begins", false)]
    [InlineData("sequence = { offset = 2, bits = 16 }", "sequence = { offset = 1, bits = 8 }", "device[3].stream.sequence.offset: found 1; byte 1 belongs to sync already", false)]
    [InlineData("name = \"voltage\"\noffset", "name = \"current\"\noffset", "device[3].stream.field[2].name: found \"current\"; each field is allowed once", false)]
    [InlineData("field = \"current\"", "field = \"curent\"", "position[1].current.field: found \"curent\"; its [device.stream] has no such field; did you mean 'current'?", false)]
    [InlineData("field = \"current\"\nscale_a = 0.001", "field = \"current\"", "position[1].current.scale_a: found nothing; this key is required", true)]
    [InlineData("field = \"current\"", "field = \"current\"\ntype = \"int16\"", "position[1].current.type: found an unknown key; ", true)]
    [InlineData("index = { device = \"io\", discrete_input = 0 }", "index = { device = \"shunt\", field = \"current\" }", "position[1].index.device: found \"shunt\"; a stream carries counts and meters only; name another device", false)]
    [InlineData("up = { device = \"io\", coil = 0 }", "up = { device = \"shunt\", field = \"current\" }", "position[1].up.device: found \"shunt\"; a stream carries counts and meters only; name another device", true)]
    [InlineData("link = \"bus\"\naddress = 11", "link = \"shunt-line\"", "device[2].stream: found nothing; the table [device.stream] is required", false)]
    [InlineData("link = \"bus\"\naddress = 11", "link = \"shunt-line\"", "device[3].link: found \"shunt-line\"; each link that carries a stream is allowed once", false)]
    [InlineData("protocol = \"stream\"", "protocol = \"lines\"", "device[3].stream: found a table; only for a link that speaks \"stream\"; remove it, or change the link's protocol", false)]
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
