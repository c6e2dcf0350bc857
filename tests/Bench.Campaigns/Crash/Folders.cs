namespace Bench.Campaigns.Crash;

/// <summary>Folders of a campaign, in the system's folder for temporary files, gone at its end.</summary>
internal sealed class Folders : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("bench-crash-").FullName;
    private int _count;

    /// <summary>A path for a new folder; nothing is there yet.</summary>
    public string New() => Path.Combine(_root, $"{Interlocked.Increment(ref _count)}");

    /// <summary>A copy of a folder.</summary>
    public string CopyOf(string folder)
    {
        string copy = New();
        Directory.CreateDirectory(copy);
        foreach (string file in Directory.GetFiles(folder, "*", SearchOption.AllDirectories))
        {
            string to = Path.Combine(copy, Path.GetRelativePath(folder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }

        return copy;
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_root, recursive: true);
}
