using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Reading a bench with a programmable supply.</summary>
public class SupplyBenchTests
{
    private static readonly string Text = RepositoryFiles.Text("fixtures/benches/programmable-supply.toml");

    [Fact]
    public void Read_ProgrammableSupply_GivesItsValues()
    {
        BenchFile bench = BenchFileReader.Read(Text, "b.toml");
        Assert.Equal((LinkProtocol.Scpi, 5025), (bench.Links[1].Protocol, bench.Links[1].TcpPort));
        Assert.Equal(new DeviceDescription { Name = "supply", Link = "supply-line", TimeoutMs = 100, SupplyVoltageV = 24, SupplyRange = new(18, 30) }, bench.Devices[2]);
        Assert.Equal(Channel.Asked("supply", "MEAS:CURR?"), bench.Positions[0].Current.Channel);
        Assert.Equal(1.0, bench.Positions[0].Current.Scale);
    }

    [Theory]
    [InlineData("timeout_ms = 100", "timeout_ms = 100\naddress = 3", "device[3].address: found 3; an instrument that speaks SCPI has none; remove it", true)]
    [InlineData("voltage_v = 24.0", "voltage = 24.0", "device[3].supply.voltage: found an unknown key; did you mean 'voltage_v'?", true)]
    [InlineData("voltage_v = 24.0", "voltage_v = 230", "device[3].supply.voltage_v: found 230; a number above 0, at most 120, is allowed", true)]
    [InlineData("lowest_v = 18.0", "lowest_v = 24.5", "device[3].supply.lowest_v: found 24.5; at most voltage_v (24) is allowed", false)]
    [InlineData("highest_v = 30.0", "highest_v = 23", "device[3].supply.highest_v: found 23; at least voltage_v (24) is allowed", false)]
    [InlineData(", highest_v = 30.0", "", "device[3].supply.highest_v: found nothing; this key is required", true)]
    [InlineData("highest_v = 30.0", "highest_v = 30.0, channel = 9", "device[3].supply.channel: found 9; a whole number from 1 to 8 is allowed", true)]
    [InlineData("address = 11", "address = 11\nsupply = { voltage_v = 24 }", "device[2].supply: found a table; a programmable supply is on a link that speaks \"scpi\"; remove it, or change the link's protocol", true)]
    [InlineData("link = \"bus\"\naddress = 11", "link = \"supply-line\"", "device[3].link: found \"supply-line\"; each link that speaks SCPI is allowed once", false)]
    [InlineData("query = \"MEAS:CURR?\"", "query = \"MEAS:CURR\"", "position[1].current.query: found \"MEAS:CURR\"; a SCPI query such as \"MEAS:CURR?\" is allowed: keywords of letters and digits joined by colons, then ?", true)]
    [InlineData("query = \"MEAS:CURR?\"", "query = \"MEAS:CURR?;OUTP 1\"", "position[1].current.query: found \"MEAS:CURR?;OUTP 1\"; a SCPI query such as \"MEAS:CURR?\" is allowed: keywords of letters and digits joined by colons, then ?", true)]
    [InlineData("query = \"MEAS:CURR?\"", "quary = \"MEAS:CURR?\"", "position[1].current.quary: found an unknown key; did you mean 'query'?", true)]
    [InlineData("query = \"MEAS:CURR?\"", "query = \"MEAS:CURR?\"\nsigned = true", "position[1].current.signed: found an unknown key; ", true)]
    [InlineData("query = \"MEAS:CURR?\"", "query = \"MEAS:VOLT?\"", null, false)]
    [InlineData("up = { device = \"io\", coil = 0 }", "up = { device = \"supply\", coil = 0 }", "position[1].up.device: found \"supply\"; a device that speaks SCPI measures current and voltage only; name another device", false)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string? expected, bool inSchema)
    {
        string text = Refusal.Break(Text, part, by);
        if (expected is null)
        {
            Assert.NotNull(BenchFileReader.Read(text, "b.toml"));
            return;
        }

        Assert.Contains(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")), m => m.Contains(expected, StringComparison.Ordinal));
        if (inSchema)
        {
            Assert.False(SchemaTests.BenchPasses(text));
        }
    }

    [Theory]
    [InlineData("MEAS:CURR?", true)]
    [InlineData(":MEAS:CURR? (@2)", true)]
    [InlineData("*IDN?", true)]
    [InlineData("?", false)]
    [InlineData("::MEAS?", false)]
    [InlineData("MEAS::CURR?", false)]
    [InlineData("MEAS CURR?", false)]
    [InlineData("MEAS?CURR", false)]
    [InlineData("MEAS?\n", false)]
    public void IsOne_Text_TakesQueriesOnly(string text, bool expected) => Assert.Equal(expected, ScpiQuery.IsOne(text));

    [Fact]
    public void Read_SupplyLineAsModbus_IsRefused() =>
        Assert.Throws<ConfigurationException>(() => BenchFileReader.Read(Refusal.Break(Text, "protocol = \"scpi\"", "protocol = \"modbus-tcp\""), "b.toml"));
}
