using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Bench.SystemTests.Devices.Peers;

/// <summary>Modbus servers other than ours, as separate programs.</summary>
public static class ModbusPeers
{
    private const string Python = "/usr/bin/python3";

    /// <summary>A TCP port that was free a moment ago.</summary>
    public static int FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    public static async Task<Peer> StartPymodbusAsync(string kind, string where)
    {
        await NeedPymodbusAsync();
        return await Peer.StartAsync("ready", Python, Source("pymodbus_server.py"), kind, where);
    }

    /// <summary>A whole bench with one unit, <c>moving</c> or <c>seized</c>, over Modbus TCP.</summary>
    public static async Task<Peer> StartUnitOnPymodbusAsync(int port, string unit)
    {
        await NeedPymodbusAsync();
        return await Peer.StartAsync("ready", Python, Source("unit_on_pymodbus.py"), port.ToString(CultureInfo.InvariantCulture), unit);
    }

    public static async Task<Peer> StartLibmodbusAsync(string kind, string where)
    {
        Peer.Need("cc");
        Assert.SkipUnless(File.Exists("/usr/include/modbus/modbus.h"), "libmodbus is not installed (libmodbus-dev)");
        return await BuildAndStartAsync("libmodbus_server.c", [kind, where], "-I/usr/include/modbus", "-lmodbus");
    }

    /// <summary>Two ptys joined by a wire that takes its time; their names are the peer's first two lines.</summary>
    public static async Task<Peer> StartPacedWireAsync()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the paced wire needs Linux");
        Peer.Need("cc");
        return await BuildAndStartAsync("paced_wire.c", []);
    }

    private static async Task NeedPymodbusAsync()
    {
        Peer.Need(Python);
        (int code, _) = await Peer.RunAsync(Python, "-c", "import pymodbus");
        Assert.SkipUnless(code == 0, "pymodbus is not installed for /usr/bin/python3");
    }

    private static async Task<Peer> BuildAndStartAsync(string source, string[] arguments, params string[] options)
    {
        string built = Path.Combine(Path.GetTempPath(), $"bench-peer-{Guid.CreateVersion7():N}");
        (int code, string printed) = await Peer.RunAsync("cc", ["-O2", "-o", built, Source(source), .. options]);
        Assert.True(code == 0, printed);
        try
        {
            return await Peer.StartAsync("ready", built, arguments);
        }
        finally
        {
            File.Delete(built); // a running program keeps its file
        }
    }

    private static string Source(string name)
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "Bench.sln")))
        {
            at = at.Parent;
        }

        return Path.Combine(at!.FullName, "tests", "Bench.SystemTests", "Devices", "Peers", name);
    }
}
