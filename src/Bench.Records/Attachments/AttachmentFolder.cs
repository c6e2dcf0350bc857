using Bench.Model.Returns;
using Bench.Records.Database;
using Bench.Records.Files;
using Bench.Records.Integrity;

namespace Bench.Records.Attachments;

/// <summary>The folder of photos and files that belong to returns, each under the hash of its content.</summary>
internal sealed class AttachmentFolder(string dataFolder, Durability durability)
{
    private const string Name = "attachments";

    /// <summary>Keeps a content. One that is there already is kept once.</summary>
    /// <param name="name">The name it came with; folders before it are left out.</param>
    /// <param name="bytes">The content.</param>
    /// <exception cref="StoreException">It is empty or too large, or could not be written.</exception>
    public Attachment Write(string name, byte[] bytes)
    {
        string shown = Path.GetFileName(name);
        if (bytes.Length is 0 or > RecordStore.MostAttachmentBytes)
        {
            throw new StoreException($"'{shown}' has {bytes.Length} bytes; 1 to {RecordStore.MostAttachmentBytes} are allowed for a photo or file");
        }

        string sha256 = Fingerprint.Of(bytes);
        string path = PathOf(sha256);
        try
        {
            if (Read(sha256) is not { } there || Fingerprint.Of(there) != sha256)
            {
                FolderEntries.Make(Path.GetDirectoryName(path)!, durability);
                WholeFile.Write(path, stream => stream.Write(bytes), durability: durability);
            }
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, $"keep '{shown}'", path);
        }

        return new Attachment(sha256, shown, MediaType.Of(bytes), bytes.Length);
    }

    /// <summary>A content; null when it is gone.</summary>
    /// <exception cref="StoreException">It is there and can't be read.</exception>
    public byte[]? Read(string sha256) => KeptFile.Read(PathOf(sha256), "an attachment");

    /// <summary>Where a content is.</summary>
    public string PathOf(string sha256) => Path.Combine(dataFolder, Name, sha256);

    /// <summary>Its path within the data folder, with <c>/</c>.</summary>
    public static string FileOf(string sha256) => $"{Name}/{sha256}";
}
