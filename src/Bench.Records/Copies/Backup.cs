using System.IO.Compression;
using System.Text.Json;
using Bench.Model.Serialization;
using Bench.Records.Database;
using Bench.Records.Files;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Copies;

/// <summary>
/// Copies a store into one ZIP file while runs may be written: a snapshot of the database first, then the files that this
/// snapshot names. A sealed run's files never change, so the two belong together.
/// </summary>
internal sealed class Backup(StoreDatabase database, string folder, TimeProvider time)
{
    private const string Snapshot = ".db" + WholeFile.Unfinished;

    /// <summary>Writes the backup aside and renames it: a file under its own name is always whole.</summary>
    /// <exception cref="StoreException">The file is there already, or can't be written.</exception>
    public BackupManifest Write(string file)
    {
        string full = Path.GetFullPath(file);
        if (Path.Exists(full))
        {
            throw new StoreException($"'{full}' is there already; choose another name for the backup");
        }

        if (!Directory.Exists(Path.GetDirectoryName(full)))
        {
            throw new StoreException($"there is no folder for the backup '{full}'; make it, or name another");
        }

        string snapshot = full + Snapshot;
        try
        {
            File.Delete(snapshot);
            database.CopyTo(snapshot);
            BackupManifest? manifest = null;
            WholeFile.Write(full, stream => manifest = Pack(snapshot, stream), overwrite: false);
            return manifest!;
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, "write the backup", full);
        }
        finally
        {
            File.Delete(snapshot);
        }
    }

    private BackupManifest Pack(string snapshot, Stream stream)
    {
        DateTimeOffset now = time.GetUtcNow();
        (string? lastRun, string? lastEntry, IReadOnlyList<string> names) = Free(snapshot);
        List<BackupFile> files = [];
        List<string> missing = [];
        BackupManifest manifest;
        using (ZipArchive archive = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            files.Add(Add(archive, RecordStore.DatabaseName, snapshot, CompressionLevel.Fastest, now));
            foreach (string name in names)
            {
                string path = Path.Combine(folder, name);
                if (File.Exists(path))
                {
                    // Trace files are compressed already.
                    files.Add(Add(archive, name, path, CompressionLevel.NoCompression, now));
                }
                else
                {
                    missing.Add(name);
                }
            }

            manifest = new BackupManifest
            {
                Format = BackupManifest.CurrentFormat,
                MadeAt = now,
                LastRunHash = lastRun,
                LastEntryHash = lastEntry,
                Files = files,
                Missing = missing,
            };
            using Stream to = Entry(archive, BackupManifest.FileName, CompressionLevel.Fastest, now).Open();
            JsonSerializer.Serialize(to, manifest, BenchJson.Indented);
        }

        return manifest;
    }

    // A run that is being written goes on here; whoever restores the copy must be able to close it from its journal.
    private static (string? LastRun, string? LastEntry, IReadOnlyList<string> Names) Free(string snapshot)
    {
        using SqliteConnection connection = new($"Data Source={snapshot};Pooling=False");
        connection.Open();
        connection.Execute("UPDATE open_run SET owner_process = NULL, owner_started = NULL");
        return (
            connection.ExecuteScalar<string?>("SELECT hash FROM run ORDER BY sequence DESC LIMIT 1"),
            connection.ExecuteScalar<string?>("SELECT hash FROM entry ORDER BY sequence DESC LIMIT 1"),
            NamedFiles.Of(connection));
    }

    private static BackupFile Add(ZipArchive archive, string name, string path, CompressionLevel level, DateTimeOffset now)
    {
        using FileStream from = File.OpenRead(path);
        using Stream to = Entry(archive, name, level, now).Open();
        (long bytes, string sha256) = HashedCopy.Run(from, to);
        return new BackupFile(name, bytes, sha256);
    }

    private static ZipArchiveEntry Entry(ZipArchive archive, string name, CompressionLevel level, DateTimeOffset now)
    {
        ZipArchiveEntry entry = archive.CreateEntry(name, level);
        entry.LastWriteTime = now;
        return entry;
    }
}
