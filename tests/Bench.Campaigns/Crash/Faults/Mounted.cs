namespace Bench.Campaigns.Crash.Faults;

/// <summary>A small or read-only file system over a folder, where this user may mount one.</summary>
internal sealed class Mounted : IDisposable
{
    private readonly string _folder;

    private Mounted(string folder) => _folder = folder;

    /// <summary>A tmpfs of a size over a new folder; null when that is not permitted.</summary>
    public static Mounted? Small(string folder, int kilobytes)
    {
        Directory.CreateDirectory(folder);
        return Mount("-t", "tmpfs", "-o", FormattableString.Invariant($"size={kilobytes}k"), "tmpfs", folder) ? new Mounted(folder) : null;
    }

    /// <summary>Makes a folder and what is in it read-only; null when that is not permitted.</summary>
    public static Mounted? ReadOnly(string folder)
    {
        if (!Mount("--bind", folder, folder))
        {
            return null;
        }

        Mounted mounted = new(folder);
        if (Mount("-o", "remount,ro,bind", folder))
        {
            return mounted;
        }

        mounted.Dispose();
        return null;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        using Child umount = Child.Of("umount", static _ => { }, "-l", _folder);
        umount.End();
    }

    private static bool Mount(params string[] arguments)
    {
        if (!OperatingSystem.IsLinux())
        {
            return false;
        }

        using Child mount = Child.Of("mount", static _ => { }, arguments);
        return mount.End() == 0;
    }
}
