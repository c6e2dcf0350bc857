using Bench.Model.Traces;
using Bench.Records.Database;
using Bench.Records.Files;
using Bench.Records.Integrity;

namespace Bench.Records.Traces;

/// <summary>The folder of trace files, one for each sealed run that has samples.</summary>
internal sealed class TraceFolder
{
    private const string Name = "traces";

    private readonly string _dataFolder;
    private readonly Durability _durability;

    /// <summary>Opens the folder, making it when it is missing.</summary>
    /// <param name="dataFolder">The data folder.</param>
    /// <param name="durability">Whether files are flushed to the disk before they count as written.</param>
    public TraceFolder(string dataFolder, Durability durability)
        : this(durability, dataFolder) => FolderEntries.Make(Path.Combine(dataFolder, Name), durability);

    private TraceFolder(Durability durability, string dataFolder)
    {
        _dataFolder = dataFolder;
        _durability = durability;
    }

    /// <summary>Opens the folder as it is, for who only reads.</summary>
    public static TraceFolder ToRead(string dataFolder) => new(Durability.Relaxed, dataFolder);

    /// <summary>Writes a trace aside and renames it into place, so that a file under its own name is always whole.</summary>
    /// <returns>Its name within the data folder and its hash; nulls for a trace of no samples, which has no file.</returns>
    /// <exception cref="StoreException">It could not be written.</exception>
    public (string? File, string? Sha256) Write(Guid run, Trace trace)
    {
        if (trace.Count == 0)
        {
            return (null, null);
        }

        byte[] bytes = TraceFile.Encode(run, trace);
        string name = NameOf(run);
        string path = PathOf(name);
        try
        {
            WholeFile.Write(path, stream => stream.Write(bytes), durability: _durability);
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, $"write the trace of run {run:D}", path);
        }

        return (name, Fingerprint.Of(bytes));
    }

    /// <summary>The bytes of a trace file; null when it is gone.</summary>
    /// <exception cref="StoreException">It is there and can't be read.</exception>
    public byte[]? Read(string name) => KeptFile.Read(PathOf(name), "a trace");

    /// <summary>Name of a run's trace file within the data folder.</summary>
    public static string NameOf(Guid run) => $"{Name}/{run:D}.parquet";

    /// <summary>Names of all trace files there are, within the data folder.</summary>
    /// <exception cref="StoreException">The folder can't be read.</exception>
    public IReadOnlyList<string> Names()
    {
        string folder = Path.Combine(_dataFolder, Name);
        try
        {
            return [.. Directory.EnumerateFiles(folder, "*.parquet").Select(path => $"{Name}/{Path.GetFileName(path)}").Order(StringComparer.Ordinal)];
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, "list the traces", folder);
        }
    }

    /// <summary>Length of a trace file in bytes; null when it is gone.</summary>
    public long? LengthOf(string name) => new FileInfo(PathOf(name)) is { Exists: true } file ? file.Length : null;

    /// <summary>Deletes a trace file.</summary>
    /// <exception cref="StoreException">It can't be deleted.</exception>
    public void Delete(string name)
    {
        try
        {
            File.Delete(PathOf(name));
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, "delete a trace", PathOf(name));
        }
    }

    /// <summary>Where a trace file is.</summary>
    public string PathOf(string name) => Path.Combine(_dataFolder, name);
}
