namespace Bench.SystemTests.Devices.Peers;

/// <summary>Two ptys joined by socat: what is written to one is read from the other.</summary>
public sealed class PtyPair : IAsyncDisposable
{
    private readonly string _folder;
    private readonly Peer _socat;

    private PtyPair(string folder, Peer socat)
    {
        _folder = folder;
        _socat = socat;
    }

    public string Near => Path.Combine(_folder, "near");

    public string Far => Path.Combine(_folder, "far");

    public static async Task<PtyPair> OpenAsync()
    {
        Peer.Need("socat");
        string folder = Directory.CreateTempSubdirectory("bench-pty-").FullName;
        Peer socat = await Peer.StartAsync(
            "starting data transfer loop",
            "socat",
            "-d",
            "-d",
            $"pty,raw,echo=0,link={Path.Combine(folder, "near")}",
            $"pty,raw,echo=0,link={Path.Combine(folder, "far")}");
        return new PtyPair(folder, socat);
    }

    /// <summary>Pulls the cable: both ends vanish.</summary>
    public ValueTask PullAsync() => _socat.DisposeAsync();

    public async ValueTask DisposeAsync()
    {
        await _socat.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
