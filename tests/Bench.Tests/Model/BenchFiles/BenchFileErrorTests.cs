using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

public class BenchFileErrorTests
{
    [Fact]
    public void Read_SmallBench_IsValid() => Assert.Equal("left", BenchFileReader.Read(SmallBench.Text, "b.toml").Positions[0].Name);

    [Theory]
    [InlineData("schema = 1", "schema = 2", "b.toml:1: schema: found 2; this program reads schema 1 only")]
    [InlineData("schema = 1", "# schema", "b.toml:1: schema: found nothing; this key is required")]
    [InlineData("schema = 1", "schema = \"1\"", "b.toml:1: schema: found \"1\"; a whole number from 1 to 2147483647 is allowed")]
    [InlineData("name = \"Greenhouse bench\"", "name = 7", "b.toml:3: bench.name: found 7; text in quotes, 1 to 400 characters, is allowed")]
    [InlineData("supply_current_limit_a = 3.0", "supply_current_limit = 3.0", "b.toml:4: bench.supply_current_limit: found an unknown key; did you mean 'supply_current_limit_a'?")]
    [InlineData("supply_current_limit_a = 3.0", "supply_current_limit_a = 0", "b.toml:4: bench.supply_current_limit_a: found 0; a number above 0, at most 100, is allowed")]
    [InlineData("supply_current_limit_a = 3.0", "supply_current_limit_a = nan", "b.toml:4: bench.supply_current_limit_a: found nan; a number above 0, at most 100, is allowed")]
    [InlineData("name = \"net\"", "name = \"bus\"", "b.toml:12: link[2].name: found \"bus\"; each link is allowed once")]
    [InlineData("name = \"net\"", "name = \"The Net\"", "b.toml:12: link[2].name: found \"The Net\"; lower-case letters, digits and hyphens in quotes are allowed, at most 64")]
    [InlineData("kind = \"serial\"", "kind = \"usb\"", "b.toml:7: link[1].kind: found \"usb\"; allowed: \"serial\", \"tcp\"")]
    [InlineData("protocol = \"modbus-rtu\"", "protocol = \"modbus-tcp\"", "b.toml:8: link[1].protocol: found \"modbus-tcp\"; a serial link speaks \"modbus-rtu\", \"scpi\", \"lines\" or \"stream\"")]
    [InlineData("port = \"/dev/bench\"", "", "b.toml:5: link[1].port: found nothing; this key is required")]
    [InlineData("baud = 115200", "baud = 11520", "b.toml:10: link[1].baud: found 11520; allowed: 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200, 230400, 460800, 921600")]
    [InlineData("baud = 115200", "stop_bits = 3", "b.toml:10: link[1].stop_bits: found 3; a whole number from 1 to 2 is allowed")]
    [InlineData("baud = 115200", "tcp_port = 502", "b.toml:10: link[1].tcp_port: found 502; not for a serial link; remove it")]
    [InlineData("host = \"192.0.2.10\"", "host = \"192.0.2.10\"\nparity = \"even\"", "b.toml:16: link[2].parity: found \"even\"; not for a TCP link; remove it")]
    [InlineData("host = \"192.0.2.10\"", "", "b.toml:11: link[2].host: found nothing; this key is required")]
    [InlineData("name = \"io\"\nlink = \"bus\"", "name = \"io\"\nlink = \"buss\"", "b.toml:18: device[1].link: found \"buss\"; there is no such link; did you mean 'bus'?")]
    [InlineData("name = \"io\"\nlink = \"bus\"", "name = \"io\"\nlink = \"serial-one\"", "b.toml:18: device[1].link: found \"serial-one\"; there is no such link; allowed: bus, net")]
    [InlineData("address = 11", "address = 248", "b.toml:24: device[2].address: found 248; a whole number from 1 to 247 is allowed")]
    [InlineData("address = 11", "address = 0", "b.toml:24: device[2].address: found 0; a whole number from 1 to 247 is allowed")]
    [InlineData("address = 11", "address = 1", "b.toml:24: device[2].address: found 1; each address on a link is allowed once")]
    [InlineData("timeout_ms = 41", "timeout_ms = 1", "b.toml:25: device[2].timeout_ms: found 1; a number from 5 to 5000 is allowed")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\n[device.watchdog]\nholding_register = 7\nunit_ms = 10\ntimeout_ms = 150", "b.toml:29: device[2].watchdog.timeout_ms: found 150; a number from 200 to 60000 is allowed")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\n[device.watchdog]\nholding_register = 7\nunit_ms = 0.5\ntimeout_ms = 40000", "b.toml:29: device[2].watchdog.timeout_ms: found 40000; 1 to 65535 times unit_ms (0.5) is allowed")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\n[device.watchdog]\nholding_register = 7\nunit_ms = 15\ntimeout_ms = 1000", "b.toml:29: device[2].watchdog.timeout_ms: found 1000; 1 to 65535 times unit_ms (15) is allowed")]
    [InlineData("timeout_ms = 41", "timeout_ms = 50\n[device.watchdog]\nholding_register = 7\nunit_ms = 10\ntimeout_ms = 240", "b.toml:29: device[2].watchdog.timeout_ms: found 240; at least 5 times the longest device timeout_ms (50) is allowed, else devices that do not answer run it out while the program works; raise it, or lower that")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\n[device.watchdog]\nunit_ms = 10\ntimeout_ms = 1000", "b.toml:26: device[2].watchdog.holding_register: found nothing; this key is required")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\n[device.watchdog]\nholding_register = 7\nunit_ms = 10\ntimeout_ms = 1000\ncoil = 1", "b.toml:30: device[2].watchdog.coil: found an unknown key; allowed: holding_register, unit_ms, timeout_ms")]
    [InlineData("drive = \"reversing\"", "drive = \"single\"", "b.toml:30: position[1].down: found a table; a single drive has one output; remove it, or write drive = \"reversing\"")]
    [InlineData("down = { device = \"io\", coil = 1 }", "", "b.toml:26: position[1].down: found nothing; the table [position.down] is required")]
    [InlineData("coil = 1 }", "coil = 0 }", "b.toml:30: position[1].down: found coil 0 of io again; each coil is allowed once")]
    [InlineData("coil = 1 }", "input_register = 1 }", "b.toml:30: position[1].down.input_register: found input_register; coil is allowed here")]
    [InlineData("coil = 1 }", "coil = 65536 }", "b.toml:30: position[1].down.coil: found 65536; a whole number from 0 to 65535 is allowed")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"feedbak\", input_register = 0 }", "b.toml:32: position[1].count.device: found \"feedbak\"; there is no such device; did you mean 'feedback'?")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"feedback\" }", "b.toml:32: position[1].count: found no table; one of holding_register or input_register is required, with its address")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"feedback\", input_register = 0, holding_register = 0 }", "b.toml:32: position[1].count: found more than one table; one of holding_register or input_register is required, with its address")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"io\", input_register = 3 }", "b.toml:34: position[1].current: found input-register 3 of io again; each register or input of a unit is allowed once")]
    [InlineData("input_register = 2, bit = 0 }", "input_register = 2 }", "b.toml:33: position[1].index.bit: found nothing; a whole number from 0 to 15 is required: which bit of the register")]
    [InlineData("input_register = 2, bit = 0 }", "discrete_input = 2, bit = 0 }", "b.toml:33: position[1].index.bit: found 0; only a register has bits; remove it")]
    [InlineData("input_register = 2, bit = 0 }", "input_register = 2, bit = 16 }", "b.toml:33: position[1].index.bit: found 16; a whole number from 0 to 15 is allowed")]
    [InlineData("input_register = 2, bit = 0 }", "input_register = 2, bit = 0, active_low = 1 }", "b.toml:33: position[1].index.active_low: found 1; true or false is allowed")]
    [InlineData("scale_a = 0.001", "scale_a = 0", "b.toml:37: position[1].current.scale_a: found 0; a number other than 0 is allowed")]
    [InlineData("scale_a = 0.001", "scale_a = -inf", "b.toml:37: position[1].current.scale_a: found -inf; a finite number is allowed")]
    [InlineData("standard_uncertainty_a = 0.004", "standard_uncertainty_a = 0.0", "b.toml:38: position[1].current.standard_uncertainty_a: found 0.0; a number above 0, at most 1000, is allowed")]
    [InlineData("calibrated_on = 2026-03-02", "calibrated_on = \"2026-03-02\"", "b.toml:39: position[1].current.calibrated_on: found \"2026-03-02\"; a date such as 2026-03-02, without quotes, is allowed")]
    [InlineData("calibrated_on = 2026-03-02", "calibrated_on = 2026-03-02T08:00:00Z", "b.toml:39: position[1].current.calibrated_on: found 2026-03-02T08:00:00Z; a date such as 2026-03-02, without quotes, is allowed")]
    [InlineData("calibration_due_on = 2027-03-02", "calibration_due_on = 2026-03-02", "b.toml:40: position[1].current.calibration_due_on: found 2026-03-02; a day after calibrated_on is allowed")]
    [InlineData("certificate = \"GB-2\"", "certificate = \" \"", "b.toml:49: position[1].voltage.certificate: found \" \"; text in quotes, 1 to 400 characters, is allowed")]
    [InlineData("[bench]", "[bench]\n[colour]\n[bench.x]", "b.toml:3: colour: found an unknown table; allowed: schema, bench, link, device, position, gauge")]
    [InlineData("[position.voltage]", "[position.volts]", "b.toml:26: position[1].voltage: found nothing; the table [position.voltage] is required")]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected)
    {
        string[] messages = Refusal.Messages(() => BenchFileReader.Read(Refusal.Break(SmallBench.Text, part, by), "b.toml"));

        Assert.Contains(expected, messages);
    }

    [Fact]
    public void Read_ManyThingsWrong_SaysAllAtOnceInOrderOfLines()
    {
        string text = Refusal.Break(SmallBench.Text, "address = 11", "address = 300");
        text = Refusal.Break(text, "baud = 115200", "baud = 115200\nflow = \"none\"");
        text = Refusal.Break(text, "scale_v = 0.001", "");

        Assert.Equal(
            [
                "b.toml:11: link[1].flow: found an unknown key; allowed: name, kind, protocol, port, baud, parity, stop_bits, host, tcp_port",
                "b.toml:25: device[2].address: found 300; a whole number from 1 to 247 is allowed",
                "b.toml:43: position[1].voltage.scale_v: found nothing; this key is required",
            ],
            Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")));
    }

    [Fact]
    public void Read_TwoPositionsOnOneFeedback_IsRefused()
    {
        string position = SmallBench.Text[SmallBench.Text.IndexOf("[[position]]", StringComparison.Ordinal)..];

        Assert.Equal(
            [
                "b.toml:51: position[2].name: found \"left\"; each position is allowed once",
                "b.toml:53: position[2].up: found coil 0 of io again; each coil is allowed once",
                "b.toml:54: position[2].down: found coil 1 of io again; each coil is allowed once",
                "b.toml:56: position[2].count: found input-register 0 of feedback again; each register or input of a unit is allowed once",
                "b.toml:57: position[2].index: found input-register 2 bit 0 of io again; each register or input of a unit is allowed once",
                "b.toml:58: position[2].current: found input-register 3 of io again; each register or input of a unit is allowed once",
            ],
            Refusal.Messages(() => BenchFileReader.Read(SmallBench.Text + "\n" + position, "b.toml")));
    }

    [Fact]
    public void Read_EveryTableMissing_SaysEach() =>
        Assert.Equal(
            [
                "b.toml:1: bench: found nothing; the table [bench] is required",
                "b.toml:1: link: found nothing; [[link]] is required, at least 1",
                "b.toml:1: device: found nothing; [[device]] is required, at least 1",
                "b.toml:1: position: found nothing; [[position]] is required, at least 1",
            ],
            Refusal.Messages(() => BenchFileReader.Read("schema = 1", "b.toml")));
}
