using Bench.Devices.Adapters;

namespace Bench.Tests.Devices.Adapters;

/// <summary>A folder with the links a system would keep; no port is touched.</summary>
public sealed class SerialPortsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("bench-ports-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void List_LinksOfBothKinds_PrefersTheAdapterToTheSocket()
    {
        string first = Port("ttyUSB0");
        string second = Port("ttyUSB1");
        string byId = Link("by-id", "usb-greenhouse-0001", first);
        Link("by-path", "pci-1", first);
        string byPath = Link("by-path", "pci-2", second);
        Assert.Equal(
            [new SerialPortEntry(byId, first, true), new SerialPortEntry(byPath, second, true), new SerialPortEntry("/dev/ttyS9", "/dev/ttyS9", false)],
            SerialPorts.List(Path.Combine(_folder, "serial"), [first, second, "/dev/ttyS9"]).OrderBy(e => e.Device.StartsWith("/dev", StringComparison.Ordinal)));
    }

    [Fact]
    public void List_LinkToAPulledAdapter_IsLeftOut()
    {
        Link("by-id", "usb-greenhouse-0001", Path.Combine(_folder, "ttyUSB7"));
        Assert.Empty(SerialPorts.List(Path.Combine(_folder, "serial"), []));
    }

    [Fact]
    public void List_NoLinks_IsThePortsInOrder() =>
        Assert.Equal(["COM3", "COM4"], SerialPorts.List(Path.Combine(_folder, "none"), ["COM4", "COM3"]).Select(e => e.Port));

    private string Port(string name)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, "");
        return path;
    }

    private string Link(string kind, string name, string target)
    {
        string folder = Directory.CreateDirectory(Path.Combine(_folder, "serial", kind)).FullName;
        string path = Path.Combine(folder, name);
        File.CreateSymbolicLink(path, target);
        return path;
    }
}
