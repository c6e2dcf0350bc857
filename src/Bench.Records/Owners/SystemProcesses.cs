using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;

namespace Bench.Records.Owners;

/// <summary>The real process table.</summary>
/// <remarks>
/// On Linux the start is taken in clock ticks since boot together with the boot's id (proc(5)): unlike
/// <see cref="Process.StartTime"/> it stays the same when the wall clock is set.
/// </remarks>
public sealed class SystemProcesses : IProcessTable
{
    private const int StateField = 3;
    private const int StartTimeField = 22;

    /// <inheritdoc/>
    public ProcessMark Self { get; } =
        new(Environment.ProcessId, StartOf(Environment.ProcessId) ?? throw new InvalidOperationException("this process is not in the process table"));

    /// <inheritdoc/>
    public bool IsRunning(ProcessMark process)
    {
        ArgumentNullException.ThrowIfNull(process);
        return StartOf(process.Id) == process.Started;
    }

    private static string? StartOf(int id) => OperatingSystem.IsLinux() ? StartOnLinux(id) : StartElsewhere(id);

    private static string? StartOnLinux(int id)
    {
        try
        {
            string stat = File.ReadAllText($"/proc/{id.ToString(CultureInfo.InvariantCulture)}/stat");

            // The second field, the program's name in brackets, may itself hold blanks and brackets.
            string[] fields = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
            bool ended = fields[0] is "Z" or "X";
            return ended ? null : $"{File.ReadAllText("/proc/sys/kernel/random/boot_id").Trim()}/{fields[StartTimeField - StateField]}";
        }
        catch (IOException)
        {
            return null;
        }
    }

    private static string? StartElsewhere(int id)
    {
        try
        {
            using Process process = Process.GetProcessById(id);
            return process.StartTime.ToUniversalTime().ToString("s", CultureInfo.InvariantCulture);
        }
        catch (Exception e) when (e is ArgumentException or InvalidOperationException or Win32Exception)
        {
            return null;
        }
    }
}
