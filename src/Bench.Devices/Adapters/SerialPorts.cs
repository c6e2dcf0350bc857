using System.IO.Ports;

namespace Bench.Devices.Adapters;

/// <summary>Lists serial ports by names fit for a bench file.</summary>
/// <remarks>
/// On Linux the system keeps links under /dev/serial: by-id names an adapter by its serial number and so follows it to
/// another socket; by-path names the socket. Both stay when ports are renumbered; by-id goes first, unless two adapters
/// without serial numbers share it, when the system keeps only one link.
/// </remarks>
public static class SerialPorts
{
    private const string Links = "/dev/serial";

    private static readonly string[] Kinds = ["by-id", "by-path"];

    /// <summary>The serial ports that are present now, in order of name. Opens none.</summary>
    public static IReadOnlyList<SerialPortEntry> List() => List(Links, SerialPort.GetPortNames());

    /// <summary>As <see cref="List()"/>, from given places.</summary>
    /// <param name="links">Folder with the folders of links; need not exist.</param>
    /// <param name="ports">Ports the system names.</param>
    internal static IReadOnlyList<SerialPortEntry> List(string links, IEnumerable<string> ports)
    {
        SortedDictionary<string, SerialPortEntry> byDevice = new(StringComparer.Ordinal);
        foreach (string path in Kinds.SelectMany(kind => Entries(Path.Combine(links, kind))))
        {
            if (Target(path) is string device)
            {
                byDevice.TryAdd(device, new SerialPortEntry(path, device, IsStable: true));
            }
        }

        foreach (string port in ports)
        {
            byDevice.TryAdd(port, new SerialPortEntry(port, port, IsStable: false));
        }

        return [.. byDevice.Values];
    }

    private static string[] Entries(string folder)
    {
        try
        {
            string[] entries = Directory.Exists(folder) ? Directory.GetFileSystemEntries(folder) : [];
            Array.Sort(entries, StringComparer.Ordinal);
            return entries;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return []; // an adapter was pulled meanwhile, or this user may not look
        }
    }

    private static string? Target(string path)
    {
        try
        {
            FileSystemInfo? target = File.ResolveLinkTarget(path, returnFinalTarget: true);
            return target is { Exists: true } ? target.FullName : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
