using System.Runtime.InteropServices;
using System.Text;

namespace Bench.Simulation.Serving;

/// <summary>The few system calls a pseudo-terminal needs (POSIX.1-2017: posix_openpt, grantpt, unlockpt, ptsname, termios).</summary>
internal static partial class Pty
{
    internal const int Interrupted = 4; // EINTR

    private const int ReadWrite = 2;

    // O_CLOEXEC, so that programs started meanwhile do not hold the port open; O_NOCTTY.
    private static readonly int Flags =
        OperatingSystem.IsMacOS() ? ReadWrite | 0x20000 | 0x1000000 : ReadWrite | 0x100 | 0x80000;

    /// <summary>Opens a pair in raw mode: no echo, no line editing, every byte as it is.</summary>
    /// <returns>The master's handle, the slave's handle and the slave's path.</returns>
    /// <exception cref="IOException">The system gives no pair.</exception>
    internal static unsafe (int Master, int Slave, string Path) Open()
    {
        int master = Checked(OpenMaster(Flags), "posix_openpt");
        _ = Checked(Grant(master), "grantpt");
        _ = Checked(Unlock(master), "unlockpt");
        byte* name = Name(master);
        if (name is null)
        {
            throw Failure("ptsname");
        }

        string path = Encoding.UTF8.GetString(MemoryMarshal.CreateReadOnlySpanFromNullTerminated(name));
        int slave = Checked(OpenFile(path, Flags), "open");

        // struct termios is 60 bytes on Linux and 72 on macOS; its inside is left to cfmakeraw.
        byte* settings = stackalloc byte[256];
        _ = Checked(GetAttributes(slave, settings), "tcgetattr");
        MakeRaw(settings);
        _ = Checked(SetAttributes(slave, 0, settings), "tcsetattr");
        return (master, slave, path);
    }

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    internal static unsafe partial nint Read(int handle, byte* buffer, nuint count);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    internal static unsafe partial nint Write(int handle, byte* buffer, nuint count);

    [LibraryImport("libc", EntryPoint = "close")]
    internal static partial int Close(int handle);

    /// <summary>Sleeps; good to about a tenth of a millisecond, which timers of the framework are not.</summary>
    internal static unsafe void Sleep(TimeSpan span)
    {
        if (span > TimeSpan.Zero)
        {
            nint* wait = stackalloc nint[2] { (nint)span.TotalSeconds, (nint)(span.Ticks % TimeSpan.TicksPerSecond * 100) };
            _ = NanoSleep(wait, null);
        }
    }

    /// <summary>Drops what the slave's owner has not read, so that a writer at the other end does not wait for ever.</summary>
    internal static void DropUnread(int slave) => _ = Flush(slave, OperatingSystem.IsMacOS() ? 1 : 0); // TCIFLUSH

    private static int Checked(int result, string call) => result < 0 ? throw Failure(call) : result;

    private static IOException Failure(string call) =>
        new($"no pseudo-terminal: {call} says {Marshal.GetLastPInvokeErrorMessage()}");

    [LibraryImport("libc", EntryPoint = "posix_openpt", SetLastError = true)]
    private static partial int OpenMaster(int flags);

    [LibraryImport("libc", EntryPoint = "grantpt", SetLastError = true)]
    private static partial int Grant(int master);

    [LibraryImport("libc", EntryPoint = "unlockpt", SetLastError = true)]
    private static partial int Unlock(int master);

    [LibraryImport("libc", EntryPoint = "ptsname", SetLastError = true)]
    private static unsafe partial byte* Name(int master);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int OpenFile(string path, int flags);

    [LibraryImport("libc", EntryPoint = "tcgetattr", SetLastError = true)]
    private static unsafe partial int GetAttributes(int handle, byte* settings);

    [LibraryImport("libc", EntryPoint = "tcsetattr", SetLastError = true)]
    private static unsafe partial int SetAttributes(int handle, int when, byte* settings);

    [LibraryImport("libc", EntryPoint = "tcflush")]
    private static partial int Flush(int handle, int queue);

    [LibraryImport("libc", EntryPoint = "cfmakeraw")]
    private static unsafe partial void MakeRaw(byte* settings);

    [LibraryImport("libc", EntryPoint = "nanosleep")]
    private static unsafe partial int NanoSleep(nint* wait, nint* left);
}
