using System.Security.Cryptography;
using System.Text;

namespace Bench.Model.Configuration;

/// <summary>A file of the user's as text, with the hash of its bytes.</summary>
/// <param name="Text">The text, byte order mark included, so that its UTF-8 bytes are the file's bytes.</param>
/// <param name="Sha256">SHA-256 of the bytes, lower-case hexadecimal.</param>
internal sealed record FileText(string Text, string Sha256)
{
    /// <summary>Largest file that is read: far above any real one, small enough to refuse a wrong file at once.</summary>
    public const int MostBytes = 1 << 20;

    private const char ByteOrderMark = '\uFEFF';

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text without a byte order mark.</summary>
    public string Content => Text.StartsWith(ByteOrderMark) ? Text[1..] : Text;

    /// <summary>Decodes the bytes of a file.</summary>
    /// <exception cref="ConfigurationException">Empty, too large, not UTF-8, or not text.</exception>
    public static FileText Of(ReadOnlySpan<byte> bytes, string fileName)
    {
        if (bytes.Length > MostBytes)
        {
            throw Refuse(fileName, 0, $"{bytes.Length} bytes", $"at most {MostBytes} bytes are allowed; is this the right file?");
        }

        if (bytes.StartsWith<byte>([0xFF, 0xFE]) || bytes.StartsWith<byte>([0xFE, 0xFF]))
        {
            throw Refuse(fileName, 0, "UTF-16 text", "save the file as UTF-8");
        }

        int zero = bytes.IndexOf((byte)0);
        if (zero >= 0)
        {
            throw Refuse(fileName, LineOf(bytes, zero), "binary data", "a TOML text file in UTF-8 is allowed; is this the right file?");
        }

        string text;
        try
        {
            text = Strict.GetString(bytes);
        }
        catch (DecoderFallbackException e)
        {
            throw Refuse(fileName, LineOf(bytes, e.Index), "bytes that are not UTF-8", "save the file as UTF-8");
        }

        FileText file = new(text, Convert.ToHexStringLower(SHA256.HashData(bytes)));
        return string.IsNullOrWhiteSpace(file.Content)
            ? throw Refuse(fileName, 0, "an empty file", "the file must begin with `schema = 1`")
            : file;
    }

    /// <summary>As <see cref="Of(ReadOnlySpan{byte},string)"/>, for text that is already decoded.</summary>
    /// <exception cref="ConfigurationException">Empty, too large, or not text.</exception>
    public static FileText Of(string text, string fileName)
    {
        try
        {
            return Of(Strict.GetBytes(text), fileName);
        }
        catch (EncoderFallbackException)
        {
            throw Refuse(fileName, 0, "characters that UTF-8 cannot hold", "save the file as UTF-8");
        }
    }

    // The decoder counts a bad byte of the first few from before the start, hence the lower clamp.
    private static int LineOf(ReadOnlySpan<byte> bytes, int index) =>
        1 + bytes[..Math.Clamp(index, 0, bytes.Length)].Count((byte)'\n');

    private static ConfigurationException Refuse(string fileName, int line, string found, string allowed) =>
        new([new ConfigurationError(fileName, line, "file", found, allowed)]);
}
