using System.Runtime.InteropServices;
using Bench.Devices.Links;

namespace Bench.Cli.Stopping;

/// <summary>Another process of this very program, which holds a port that is needed to make the bench safe (S10).</summary>
internal static partial class OtherBench
{
    private const int Terminate = 15; // SIGTERM, signal(7)

    /// <summary>
    /// Whether a process runs this program: the same executable, and where that is the .NET host, the same assembly.
    /// </summary>
    public static bool Is(PortHolder holder)
    {
        string mine = Path.GetFullPath(Environment.ProcessPath ?? "");
        string assembly = Path.Combine(AppContext.BaseDirectory, "bench.dll");
        return holder.Program == mine
            && (Path.GetFileNameWithoutExtension(mine) == "bench"
                || holder.Arguments.Any(a => a.EndsWith("bench.dll", StringComparison.Ordinal) && Path.GetFullPath(a) == assembly));
    }

    /// <summary>Asks it to switch off, confirm and end, as Ctrl-C would.</summary>
    /// <returns>Whether it could be asked.</returns>
    public static bool AskToEnd(PortHolder holder) => Kill(holder.Id, Terminate) == 0;

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Kill(int process, int signal);
}
