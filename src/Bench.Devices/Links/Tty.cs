using System.Runtime.InteropServices;

namespace Bench.Devices.Links;

/// <summary>The few system calls a tty needs, on Linux and macOS; a socket needs some of them, too. Numbers from the systems' own headers.</summary>
internal static partial class Tty
{
    public const short PollIn = 0x01;
    public const short PollOut = 0x04;
    public const int Interrupted = 4; // EINTR
    public const int NoPermission = 13; // EACCES
    public const int Busy = 16; // EBUSY

    private const int ReadWrite = 2;
    private const int LockExclusiveNow = 2 | 4; // LOCK_EX | LOCK_NB
    private const int Unlock = 8; // LOCK_UN

    private static readonly bool Mac = OperatingSystem.IsMacOS();

    /// <summary>EAGAIN.</summary>
    public static readonly int TryAgain = Mac ? 35 : 11;

    // O_NONBLOCK | O_NOCTTY | O_CLOEXEC
    private static readonly int Flags = Mac ? 0x4 | 0x20000 | 0x1000000 : 0x800 | 0x100 | 0x80000;

    // TIOCEXCL
    private static readonly nuint Exclusive = Mac ? 0x2000740D : 0x540Cu;

    // TIOCNXCL
    private static readonly nuint Shared = Mac ? 0x2000740E : 0x540Du;

    public static int Open(string path) => Open(path, ReadWrite | Flags);

    /// <summary>Keeps others out: other benches by the lock, other programs by the tty's own exclusive mode.</summary>
    public static bool TryOwn(int handle) => Lock(handle, LockExclusiveNow) == 0;

    /// <summary>
    /// Gives the lock back. Closing alone does not: it belongs to the open file, which a child that this program is just
    /// starting holds, too, from fork to exec, and whoever opened the port anew meanwhile would find it in use.
    /// </summary>
    public static void Disown(int handle) => _ = Lock(handle, Unlock);

    public static void RefuseOthers(int handle) => _ = Control(handle, Exclusive);

    public static void AdmitOthers(int handle) => _ = Control(handle, Shared);

    [LibraryImport("libc", EntryPoint = "poll", SetLastError = true)]
    public static unsafe partial int Poll(PollEntry* entries, nuint count, int timeoutMs);

    [LibraryImport("libc", EntryPoint = "read", SetLastError = true)]
    public static unsafe partial nint Read(int handle, byte* buffer, nuint count);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    public static unsafe partial nint Write(int handle, byte* buffer, nuint count);

    [LibraryImport("libc", EntryPoint = "close")]
    public static partial int Close(int handle);

    [LibraryImport("libc", EntryPoint = "pipe", SetLastError = true)]
    public static unsafe partial int Pipe(int* ends);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "flock", SetLastError = true)]
    private static partial int Lock(int handle, int operation);

    [LibraryImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static partial int Control(int handle, nuint request);

    /// <summary>struct pollfd.</summary>
    internal struct PollEntry
    {
        public int Handle;
        public short Wanted;
        public short Happened;
    }
}
