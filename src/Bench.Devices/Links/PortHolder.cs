using System.Globalization;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Links;

/// <summary>A process that holds a serial port.</summary>
/// <param name="Id">The system's process id.</param>
/// <param name="Program">Path of its program; empty when it may not be seen.</param>
/// <param name="Arguments">Its command line, program first.</param>
public sealed record PortHolder(int Id, string Program, IReadOnlyList<string> Arguments)
{
    /// <summary>
    /// Finds the bench process that owns a serial port. On Linux a bench marks the port it owns with a lock (flock), and
    /// proc(5) shows who holds one; whoever merely has the port open (a simulator its own end) is not meant.
    /// </summary>
    /// <param name="link">A serial link.</param>
    /// <returns>The owner; null when there is none, another user's, or the system does not say.</returns>
    public static PortHolder? Find(LinkDescription link)
    {
        ArgumentNullException.ThrowIfNull(link);
        if (link.Kind != LinkKind.Serial || !OperatingSystem.IsLinux())
        {
            return null;
        }

        string port = SerialPortOpener.Resolve(link.Port);
        foreach (string process in Directory.EnumerateDirectories("/proc"))
        {
            if (int.TryParse(Path.GetFileName(process), NumberStyles.None, CultureInfo.InvariantCulture, out int id)
                && id != Environment.ProcessId
                && Owns(process, port))
            {
                return new PortHolder(id, ProgramOf(process), ArgumentsOf(process));
            }
        }

        return null;
    }

    private static bool Owns(string process, string port)
    {
        try
        {
            return Directory.EnumerateFiles(Path.Combine(process, "fd")).Any(handle =>
                File.ResolveLinkTarget(handle, returnFinalTarget: false)?.FullName == port
                && File.ReadLines(Path.Combine(process, "fdinfo", Path.GetFileName(handle))).Any(IsLock));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false; // it ended meanwhile, or is another user's
        }
    }

    private static bool IsLock(string line) =>
        line.StartsWith("lock:", StringComparison.Ordinal) && line.Contains("FLOCK", StringComparison.Ordinal);

    private static string ProgramOf(string process)
    {
        try
        {
            return File.ResolveLinkTarget(Path.Combine(process, "exe"), returnFinalTarget: false)?.FullName ?? "";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }

    private static string[] ArgumentsOf(string process)
    {
        try
        {
            return File.ReadAllText(Path.Combine(process, "cmdline")).Split('\0', StringSplitOptions.RemoveEmptyEntries);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}
