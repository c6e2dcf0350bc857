using System.IO.Ports;

namespace Bench.Devices.Discovery;

/// <summary>Finds this machine's serial ports.</summary>
public static class SerialPorts
{
    // Linux names adapters by maker and serial number here, else by the socket they are plugged into.
    private static readonly string[] StableFolders = ["/dev/serial/by-id", "/dev/serial/by-path"];

    /// <summary>All of them, by name.</summary>
    public static IReadOnlyList<SerialPortPlace> List() => List(SerialPort.GetPortNames(), StableFolders);

    internal static IReadOnlyList<SerialPortPlace> List(IEnumerable<string> names, IEnumerable<string> folders)
    {
        Dictionary<string, string> stable = [];
        foreach (string path in folders.Where(Directory.Exists).SelectMany(f => Directory.EnumerateFileSystemEntries(f).Order(StringComparer.Ordinal)))
        {
            if (File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName is { } port)
            {
                stable.TryAdd(port, path);
            }
        }

        return
        [
            .. names.Union(stable.Keys).Order(StringComparer.Ordinal)
                .Select(n => new SerialPortPlace(n, stable.GetValueOrDefault(n))),
        ];
    }
}
