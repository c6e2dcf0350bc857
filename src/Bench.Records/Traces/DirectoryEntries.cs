using System.Runtime.InteropServices;

namespace Bench.Records.Traces;

/// <summary>
/// Puts a folder's entries on the disk after a rename (POSIX fsync of the directory): without it a pulled plug may bring
/// back the old name. .NET opens no directories, so the system is called; Windows keeps its entries in a journal of its own.
/// </summary>
internal static class DirectoryEntries
{
    private const int ReadOnly = 0;

    /// <summary>Flushes a folder's entries.</summary>
    /// <exception cref="IOException">The system refused.</exception>
    public static void Flush(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        int descriptor = Open(folder, ReadOnly);
        if (descriptor < 0)
        {
            throw new IOException($"cannot open the folder '{folder}' to flush it (error {Marshal.GetLastPInvokeError()})");
        }

        int result = Sync(descriptor);
        int error = Marshal.GetLastPInvokeError();
        _ = Close(descriptor);
        if (result != 0)
        {
            throw new IOException($"cannot flush the folder '{folder}' (error {error})");
        }
    }

    [DllImport("libc", EntryPoint = "open", SetLastError = true, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Sync(int descriptor);

    [DllImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int descriptor);
}
