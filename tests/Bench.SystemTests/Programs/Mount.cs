using Bench.SystemTests.Devices.Peers;

namespace Bench.SystemTests.Programs;

/// <summary>A small or read-only file system over a folder, where whoever tests may mount one. Gone when disposed.</summary>
public sealed class Mount : IAsyncDisposable
{
    private readonly string _folder;

    private Mount(string folder) => _folder = folder;

    public static Task<Mount> ReadOnlyAsync(string folder) => MakeAsync(folder, "ro,size=1m");

    /// <summary>Makes a folder read-only with what is in it, for root too.</summary>
    public static async Task<Mount> FreezeAsync(string folder)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a bind mount needs Linux");
        Peer.Need("mount");
        (int code, string printed) = await Peer.RunAsync("mount", "--bind", folder, folder);
        Assert.SkipUnless(code == 0, $"mounting is not permitted here: {printed.Trim()}");
        Mount mount = new(folder);
        (code, printed) = await Peer.RunAsync("mount", "-o", "remount,ro,bind", folder);
        if (code != 0)
        {
            await mount.DisposeAsync();
            Assert.Skip($"a read-only bind mount is not permitted here: {printed.Trim()}");
        }

        return mount;
    }

    public static Task<Mount> SmallAsync(string folder, string size) => MakeAsync(folder, $"size={size}");

    public async ValueTask DisposeAsync() => await Peer.RunAsync("umount", "-l", _folder);

    private static async Task<Mount> MakeAsync(string folder, string options)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a tmpfs needs Linux");
        Peer.Need("mount");
        (int code, string printed) = await Peer.RunAsync("mount", "-t", "tmpfs", "-o", options, "tmpfs", folder);
        Assert.SkipUnless(code == 0, $"mounting is not permitted here: {printed.Trim()}");
        return new Mount(folder);
    }
}
