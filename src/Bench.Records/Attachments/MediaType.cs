namespace Bench.Records.Attachments;

/// <summary>What a file is by its first bytes; its name may say anything.</summary>
internal static class MediaType
{
    /// <summary>What nothing is known of (RFC 2046, 4.5.1).</summary>
    public const string Unknown = "application/octet-stream";

    // Signatures: PNG (ISO/IEC 15948), JPEG (ISO/IEC 10918-1: SOI and a marker), GIF89a, PDF (ISO 32000), WebP (RIFF), Matroska/WebM (EBML).
    private static readonly (byte[] Begin, string Type)[] Signatures =
    [
        ([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], "image/png"),
        ([0xFF, 0xD8, 0xFF], "image/jpeg"),
        ([0x47, 0x49, 0x46, 0x38], "image/gif"),
        ([0x25, 0x50, 0x44, 0x46, 0x2D], "application/pdf"),
        ([0x1A, 0x45, 0xDF, 0xA3], "video/webm"),
    ];

    /// <summary>The media type of a content.</summary>
    public static string Of(ReadOnlySpan<byte> bytes)
    {
        foreach ((byte[] begin, string type) in Signatures)
        {
            if (bytes.StartsWith(begin))
            {
                return type;
            }
        }

        return bytes switch
        {
            { Length: >= 12 } when bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8) => "image/webp",
            { Length: >= 12 } when bytes[4..8].SequenceEqual("ftyp"u8) => bytes[8..11].SequenceEqual("hei"u8) ? "image/heic" : "video/mp4",
            { Length: > 0 } when IsText(bytes) => "text/plain",
            _ => Unknown,
        };
    }

    private static bool IsText(ReadOnlySpan<byte> bytes) =>
        System.Text.Unicode.Utf8.IsValid(bytes) && bytes.IndexOfAnyInRange((byte)0x00, (byte)0x08) < 0;
}
