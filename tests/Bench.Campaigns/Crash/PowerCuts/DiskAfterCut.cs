namespace Bench.Campaigns.Crash.PowerCuts;

/// <summary>
/// What may be on a disk after the power failed, by what POSIX promises and no more: a write is there once its file was
/// flushed after it, a name once its folder was; everything later may be there, in part or not at all.
/// </summary>
internal sealed class DiskAfterCut
{
    private const int SectorBytes = 512;

    private readonly IReadOnlyList<FileOperation> _operations;
    private readonly int _cut;
    private readonly Random _random;
    private readonly double _share;
    private readonly Dictionary<string, int> _live = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _names = new(StringComparer.Ordinal);
    private readonly Dictionary<int, List<FileOperation>> _content = [];
    private readonly Dictionary<int, List<FileOperation>> _flushes = [];

    private DiskAfterCut(IReadOnlyList<FileOperation> operations, int cut, double share, Random random)
    {
        _operations = operations;
        _cut = cut;
        _share = share;
        _random = random;
    }

    /// <summary>Makes a folder as it may be found.</summary>
    /// <param name="operations">What was done under <paramref name="from"/>, which was not there before.</param>
    /// <param name="cut">When the power failed, as a line of the log.</param>
    /// <param name="share">Share of what was not flushed that is there all the same, 0 to 1.</param>
    /// <param name="random">Which.</param>
    /// <param name="from">The folder that was written.</param>
    /// <param name="to">The folder to make.</param>
    public static void Make(IReadOnlyList<FileOperation> operations, int cut, double share, Random random, string from, string to)
    {
        DiskAfterCut disk = new(operations, cut, share, random);
        disk.Follow();
        disk.WriteTo(from, to);
    }

    private void Follow()
    {
        int inodes = 0;
        foreach (FileOperation operation in _operations.Where(o => o.Entered <= _cut))
        {
            switch (operation.Kind)
            {
                case FileOperationKind.Open when !_live.ContainsKey(operation.Path):
                case FileOperationKind.MakeFolder:
                    _live[operation.Path] = ++inodes;
                    if (Stays(operation, operation.Path))
                    {
                        _names[operation.Path] = inodes;
                    }

                    break;
                case FileOperationKind.Rename:
                    int moved = _live[operation.Path];
                    _live.Remove(operation.Path);
                    _live[operation.To] = moved;
                    if (Stays(operation, operation.Path))
                    {
                        _names.Remove(operation.Path);
                        _names[operation.To] = moved;
                    }

                    break;
                case FileOperationKind.Delete:
                    _live.Remove(operation.Path);
                    if (Stays(operation, operation.Path))
                    {
                        _names.Remove(operation.Path);
                    }

                    break;
                case FileOperationKind.Write or FileOperationKind.Truncate when _live.TryGetValue(operation.Path, out int written):
                    Add(_content, written, operation);
                    break;
                case FileOperationKind.Flush when operation.Done <= _cut && _live.TryGetValue(operation.Path, out int flushed):
                    Add(_flushes, flushed, operation);
                    break;
            }
        }
    }

    private void WriteTo(string from, string to)
    {
        HashSet<string> folders = [.. _operations.Where(o => o.Kind == FileOperationKind.MakeFolder).Select(o => o.Path)];
        HashSet<string> made = [Path.GetDirectoryName(from)!];
        foreach ((string path, int inode) in _names.OrderBy(n => n.Key.Length))
        {
            // Without a folder's own entry all that is in it is gone; the shared memory is no file but in name.
            if (!made.Contains(Path.GetDirectoryName(path)!) || path.EndsWith("-shm", StringComparison.Ordinal))
            {
                continue;
            }

            string copy = to + path[from.Length..];
            if (folders.Contains(path))
            {
                Directory.CreateDirectory(copy);
                made.Add(path);
            }
            else
            {
                File.WriteAllBytes(copy, Content(inode));
            }
        }
    }

    private byte[] Content(int inode)
    {
        using MemoryStream content = new();
        foreach (FileOperation operation in _content.GetValueOrDefault(inode) ?? [])
        {
            bool stays = IsFlushed(operation, _flushes.GetValueOrDefault(inode) ?? []);
            if (!stays && _random.NextDouble() >= _share)
            {
                continue;
            }

            if (operation.Kind == FileOperationKind.Truncate)
            {
                content.SetLength(operation.At);
                continue;
            }

            // Sectors are written whole, pages are not.
            int bytes = stays || _random.Next(2) == 0 ? operation.Bytes.Length : Math.Min(operation.Bytes.Length, SectorBytes * _random.Next(1, 9));
            content.Position = operation.At;
            content.Write(operation.Bytes, 0, bytes);
        }

        return content.ToArray();
    }

    private bool Stays(FileOperation operation, string path) =>
        IsFlushed(operation, _operations.Where(o => o.Kind == FileOperationKind.Flush && o.Done <= _cut && o.Path == Path.GetDirectoryName(path)))
        || _random.NextDouble() < _share;

    private static bool IsFlushed(FileOperation operation, IEnumerable<FileOperation> flushes) => flushes.Any(f => f.Entered > operation.Done);

    private static void Add(Dictionary<int, List<FileOperation>> lists, int inode, FileOperation operation)
    {
        if (!lists.TryGetValue(inode, out List<FileOperation>? list))
        {
            lists[inode] = list = [];
        }

        list.Add(operation);
    }
}
