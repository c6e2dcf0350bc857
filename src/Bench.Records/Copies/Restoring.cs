using System.IO.Compression;
using System.Text.Json;
using Bench.Model.Serialization;
using Bench.Records.Database;
using Bench.Records.Files;

namespace Bench.Records.Copies;

/// <summary>Makes a data folder of a backup: aside, every file held against its hash, then renamed. Nothing stands under its own name before all is right.</summary>
public static class Restoring
{
    /// <summary>Most bytes of a manifest: a million traces have less.</summary>
    private const long MostManifestBytes = 1L << 28;

    /// <summary>Restores a backup.</summary>
    /// <param name="file">The backup.</param>
    /// <param name="folder">The data folder: not there yet, or empty.</param>
    /// <exception cref="StoreException">The folder is not empty, or the backup can't be read or is not what was written. The folder is as before.</exception>
    public static BackupManifest Run(string file, string folder)
    {
        string from = Path.GetFullPath(file);
        string to = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        string aside = to + WholeFile.Unfinished;
        if (File.Exists(to) || (Directory.Exists(to) && Directory.EnumerateFileSystemEntries(to).Any()))
        {
            throw new StoreException($"'{to}' is not empty; a backup is restored into a new or an empty folder only, choose another with --data");
        }

        if (Path.Exists(aside))
        {
            throw new StoreException($"'{aside}' is there, where the backup would be unpacked: an earlier restore was cut short; remove it and try again");
        }

        try
        {
            BackupManifest manifest = Unpack(from, aside);
            if (Directory.Exists(to))
            {
                Directory.Delete(to);
            }

            Directory.Move(aside, to);
            FolderEntries.Flush(Path.GetDirectoryName(to)!);
            return manifest;
        }
        catch (Exception e) when (e is InvalidDataException or JsonException)
        {
            throw new StoreException($"'{from}' is not a whole backup: {e.Message}; nothing was restored, take another copy of it", e);
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, $"restore '{from}'", to);
        }
        finally
        {
            if (Directory.Exists(aside))
            {
                Directory.Delete(aside, recursive: true);
            }
        }
    }

    private static BackupManifest Unpack(string from, string aside)
    {
        using ZipArchive archive = ZipFile.OpenRead(from);
        BackupManifest manifest = ReadManifest(archive);
        Directory.CreateDirectory(aside);
        Dictionary<string, BackupFile> promised = manifest.Files.ToDictionary(f => f.Name, StringComparer.Ordinal);
        foreach (ZipArchiveEntry entry in archive.Entries.Where(e => e.FullName != BackupManifest.FileName))
        {
            if (!promised.Remove(entry.FullName, out BackupFile? file) || !IsWithin(file.Name))
            {
                throw new InvalidDataException($"it holds '{entry.FullName}', which its manifest does not name or no data folder has");
            }

            Unpack(entry, file, Path.Combine(aside, file.Name));
        }

        if (promised.Count > 0)
        {
            throw new InvalidDataException($"'{promised.Keys.First()}' is not in it");
        }

        foreach (string directory in Directory.GetDirectories(aside, "*", SearchOption.AllDirectories).Append(aside))
        {
            FolderEntries.Flush(directory);
        }

        return manifest;
    }

    private static void Unpack(ZipArchiveEntry entry, BackupFile file, string path)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using Stream packed = entry.Open();
        using FileStream unpacked = new(path, FileMode.CreateNew, FileAccess.Write, FileShare.None);
        (long bytes, string sha256) = HashedCopy.Run(packed, unpacked, file.Bytes);
        unpacked.Flush(flushToDisk: true);
        if (bytes != file.Bytes || sha256 != file.Sha256)
        {
            throw new InvalidDataException($"'{file.Name}' is not what was backed up: its SHA-256 differs");
        }
    }

    private static BackupManifest ReadManifest(ZipArchive archive)
    {
        ZipArchiveEntry entry = archive.GetEntry(BackupManifest.FileName) ?? throw new InvalidDataException($"it has no {BackupManifest.FileName}");
        if (entry.Length > MostManifestBytes)
        {
            throw new InvalidDataException($"its {BackupManifest.FileName} has {entry.Length} bytes");
        }

        using Stream stream = entry.Open();
        BackupManifest manifest = JsonSerializer.Deserialize<BackupManifest>(stream, BenchJson.Compact) ?? throw new InvalidDataException($"its {BackupManifest.FileName} is empty");
        return manifest.Format != BackupManifest.CurrentFormat
            ? throw new InvalidDataException($"it has format {manifest.Format}, and this program knows format {BackupManifest.CurrentFormat}")
            : manifest.Files.Select(f => f.Name).Distinct(StringComparer.Ordinal).Count() != manifest.Files.Count
                ? throw new InvalidDataException($"its {BackupManifest.FileName} names a file twice")
                : manifest.Files.Any(f => f.Name == RecordStore.DatabaseName)
                    ? manifest
                    : throw new InvalidDataException($"it has no {RecordStore.DatabaseName}");
    }

    // A name that leads out of the folder (CWE-22) or means something else on another system.
    private static bool IsWithin(string name) => name.Split('/').All(part => part.Length > 0 && part.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.') && part.Any(c => c != '.'));
}
