using Bench.Model.Returns;
using SkiaSharp;

namespace Bench.Reporting.Sections;

/// <summary>A photo of a return as the packet holds it: PNG or JPEG, made smaller where it is large.</summary>
/// <param name="Bytes">The picture.</param>
/// <param name="MediaType">What it is.</param>
/// <param name="IsReduced">Whether it is smaller than what was attached.</param>
internal sealed record AttachedPicture(byte[] Bytes, string MediaType, bool IsReduced)
{
    /// <summary>Greatest size of a picture that goes in as it is, bytes: a packet must stay fit for mail.</summary>
    public const int MostBytes = 400_000;

    /// <summary>Longest edge of one that is made smaller, pixels.</summary>
    private const int MostEdge = 1_280;

    // Larger ones would take gigabytes to unpack.
    private const long MostPixels = 100_000_000;
    private const int Quality = 80;

    /// <summary>The picture of an attachment; null where it is none, is gone, or can't be decoded.</summary>
    /// <param name="attachment">The attachment.</param>
    /// <param name="read">Gives its content; null where it is gone or altered.</param>
    public static AttachedPicture? Of(Attachment attachment, Func<Attachment, byte[]?> read)
    {
        if (attachment.MediaType is not ("image/png" or "image/jpeg") || read(attachment) is not { } bytes)
        {
            return null;
        }

        using SKData data = SKData.CreateCopy(bytes);
        using SKCodec? codec = SKCodec.Create(data);
        if (codec is null || (long)codec.Info.Width * codec.Info.Height > MostPixels)
        {
            return null;
        }

        return bytes.Length <= MostBytes ? new(bytes, attachment.MediaType, false) : Reduced(data);
    }

    private static AttachedPicture? Reduced(SKData data)
    {
        using SKBitmap? whole = SKBitmap.Decode(data);
        if (whole is null)
        {
            return null;
        }

        float scale = Math.Min(1, (float)MostEdge / Math.Max(whole.Width, whole.Height));
        SKImageInfo size = new(Math.Max(1, (int)(whole.Width * scale)), Math.Max(1, (int)(whole.Height * scale)));
        using SKBitmap? small = whole.Resize(size, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using SKData? encoded = small?.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return encoded is null ? null : new(encoded.ToArray(), "image/jpeg", true);
    }
}
