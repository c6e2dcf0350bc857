using Bench.Cli.Checking;
using Bench.Devices.Discovery;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Cli.Checking;

public class DiscoveredLinesTests
{
    private static readonly LinkDescription Link = LinkPlace.Parse("/dev/serial/by-id/usb-adapter-1") with { Baud = 19200, Parity = SerialParity.Even };

    // The rest of the file is a person's to write; it names devices as they were found.
    private const string Rest =
        """


        [[position]]
        name = "bay-1"
        drive = "single"
        up = { device = "device-1", coil = 0 }
        feedback = "ring"
        count = { device = "device-11", input_register = 0 }

        [position.current]
        device = "device-1"
        input_register = 0
        scale_a = 0.001
        standard_uncertainty_a = 0.004
        calibrated_on = 2026-01-01
        calibration_due_on = 2027-01-01
        certificate = "GB-1"

        [position.voltage]
        device = "device-1"
        input_register = 1
        scale_v = 0.001
        standard_uncertainty_v = 0.02
        calibrated_on = 2026-01-01
        calibration_due_on = 2027-01-01
        certificate = "GB-2"
        """;

    [Fact]
    public void Of_Found_ReadsAsPartOfABenchFile()
    {
        string lines = DiscoveredLines.Of([Found(11, 3), Found(1, 33)]);
        BenchFile file = BenchFileReader.Read(System.Text.Encoding.UTF8.GetBytes("schema = 1\n[bench]\nname = \"glasshouse\"\nsupply_current_limit_a = 3.0\n\n" + lines + Rest), "bench.toml");
        Assert.Equal(Link, file.Links[0]);
        Assert.Equal([("device-1", 1, 140.0), ("device-11", 11, 40.0)], file.Devices.Select(d => (d.Name, d.Address, d.TimeoutMs)));
    }

    [Fact]
    public void Of_OneAtAnotherSpeed_IsMarked() =>
        Assert.Contains(
            "# answers at 9600 baud, parity even: set it to the link's\n[[device]]\nname = \"device-3\"",
            DiscoveredLines.Of([Found(1, 3), Found(2, 3), Found(3, 3) with { Link = Link with { Baud = 9600 } }]),
            StringComparison.Ordinal);

    private static DiscoveredDevice Found(int address, double ms) =>
        new(Link, address, DiscoveredAnswer.Value, TimeSpan.FromMilliseconds(ms));
}
