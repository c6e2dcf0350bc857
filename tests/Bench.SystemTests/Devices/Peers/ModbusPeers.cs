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
        Peer.Need(Python);
        (int code, _) = await Peer.RunAsync(Python, "-c", "import pymodbus");
        Assert.SkipUnless(code == 0, "pymodbus is not installed for /usr/bin/python3");
        return await Peer.StartAsync("ready", Python, Source("pymodbus_server.py"), kind, where);
    }

    public static async Task<Peer> StartLibmodbusAsync(string kind, string where)
    {
        Peer.Need("cc");
        Assert.SkipUnless(File.Exists("/usr/include/modbus/modbus.h"), "libmodbus is not installed (libmodbus-dev)");
        string built = Path.Combine(AppContext.BaseDirectory, $"libmodbus_server_{Environment.ProcessId}_{Guid.NewGuid():N}");
        (int code, string printed) = await Peer.RunAsync(
            "cc", "-O2", "-I/usr/include/modbus", "-o", built, Source("libmodbus_server.c"), "-lmodbus");
        Assert.True(code == 0, printed);
        try
        {
            return await Peer.StartAsync("ready", built, kind, where);
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
