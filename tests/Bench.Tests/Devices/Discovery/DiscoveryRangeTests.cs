using Bench.Devices.Discovery;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Discovery;

public class DiscoveryRangeTests
{
    [Fact]
    public void Whole_CoversEveryAddressOfTheStandard() => Assert.Equal(Enumerable.Range(1, 247), DiscoveryRange.Whole.Addresses);

    [Fact]
    public void ParseAddresses_ListOfRanges_IsEachOnceInOrder() =>
        Assert.Equal([1, 2, 3, 4, 33], DiscoveryRange.ParseAddresses("33, 1-3,2-4"));

    [Theory]
    [InlineData("0-5")]
    [InlineData("248")]
    [InlineData("5-1")]
    [InlineData("1-2-3")]
    [InlineData("x")]
    [InlineData("")]
    [InlineData("-3")]
    public void ParseAddresses_Wrong_SaysWhatIsAllowed(string text) =>
        Assert.Contains("addresses are 1 to 247", Assert.Throws<FormatException>(() => DiscoveryRange.ParseAddresses(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void ParseBauds_List_KeepsItsOrder() => Assert.Equal([9600, 115200], DiscoveryRange.ParseBauds("9600,115200,9600"));

    [Fact]
    public void ParseBauds_Misprint_SaysWhichThereAre() =>
        Assert.Contains("1200, 2400", Assert.Throws<FormatException>(() => DiscoveryRange.ParseBauds("11520")).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("/dev/serial/by-id/a:b", LinkKind.Serial)]
    [InlineData("COM3", LinkKind.Serial)]
    [InlineData("bench.local:502", LinkKind.Tcp)]
    [InlineData("[2001:db8::7]:502", LinkKind.Tcp)]
    public void Place_PortOrHost_IsTold(string text, LinkKind kind) => Assert.Equal(kind, LinkPlace.Parse(text).Kind);

    [Theory]
    [InlineData("foo")]
    [InlineData("host:0")]
    [InlineData("host:99999")]
    [InlineData("")]
    public void Place_Neither_SaysWhatIsAllowed(string text) =>
        Assert.Contains("e.g. 192.0.2.7:502", Assert.Throws<FormatException>(() => LinkPlace.Parse(text)).Message.Replace("such as", "e.g.", StringComparison.Ordinal), StringComparison.Ordinal);

    [Fact]
    public void Ports_WithLinksThatStay_ArePairedWithThem()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "symbolic links need a privilege there");
        DirectoryInfo folder = Directory.CreateTempSubdirectory("bench-ports-");
        try
        {
            string port = Path.Combine(folder.FullName, "ttyUSB0");
            File.WriteAllText(port, "");
            string byId = folder.CreateSubdirectory("by-id").FullName;
            File.CreateSymbolicLink(Path.Combine(byId, "usb-adapter-A1"), "../ttyUSB0");
            Assert.Equal(
                [new SerialPortPlace("/dev/ttyS0", null), new SerialPortPlace(port, Path.Combine(byId, "usb-adapter-A1"))],
                SerialPorts.List(["/dev/ttyS0"], [byId, Path.Combine(folder.FullName, "none")]));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
