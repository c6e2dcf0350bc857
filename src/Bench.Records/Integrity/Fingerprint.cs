using System.Security.Cryptography;
using System.Text;

namespace Bench.Records.Integrity;

/// <summary>SHA-256 (FIPS 180-4) as the store writes it: lower-case hexadecimal.</summary>
public static class Fingerprint
{
    /// <summary>Of bytes.</summary>
    public static string Of(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>Of a text's UTF-8 bytes.</summary>
    public static string Of(string text) => Of(Encoding.UTF8.GetBytes(text));

    /// <summary>
    /// Of an entry in a chain: the entry's canonical JSON, the hash of its trace and the hash of the entry before it,
    /// each on a line of its own (canonical JSON holds no line feed, so no two entries share one text).
    /// </summary>
    /// <param name="canonicalJson">The entry.</param>
    /// <param name="traceSha256">Hash of the trace file; null when there is none.</param>
    /// <param name="previousHash">Hash of the entry before; empty for the first.</param>
    public static string OfLink(string canonicalJson, string? traceSha256, string previousHash) =>
        Of($"{canonicalJson}\n{traceSha256}\n{previousHash}");
}
