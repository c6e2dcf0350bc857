using System.Runtime.InteropServices;

namespace Bench.Records.Files;

/// <summary>
/// Puts a folder's entries on the disk after a rename (POSIX fsync of the directory): without it a pulled plug may bring
/// back the old name. .NET opens no directories, so the system is called; Windows keeps its entries in a journal of its own.
/// </summary>
internal static class FolderEntries
{
    private const int ReadOnly = 0;

    /// <summary>Makes a folder and what is missing above it; with full durability each outlives a pulled plug.</summary>
    /// <exception cref="IOException">The system refused.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not.</exception>
    public static void Make(string folder, Durability durability)
    {
        string? parent = Path.GetDirectoryName(folder);
        if (Directory.Exists(folder))
        {
            return;
        }

        if (parent is not null)
        {
            Make(parent, durability);
        }

        Directory.CreateDirectory(folder);
        if (parent is not null && durability == Durability.Full)
        {
            Flush(parent);
        }
    }

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
