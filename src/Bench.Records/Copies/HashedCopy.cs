using System.Security.Cryptography;

namespace Bench.Records.Copies;

/// <summary>Copies a stream and hashes what went through, in one pass and little memory.</summary>
internal static class HashedCopy
{
    private const int BufferBytes = 1 << 17;

    /// <summary>Copies to the end.</summary>
    /// <param name="from">From.</param>
    /// <param name="to">To.</param>
    /// <param name="most">Most bytes taken; one more and the copy ends: its length then tells that it is not what was promised.</param>
    /// <returns>Bytes copied, and their SHA-256 in lower-case hexadecimal.</returns>
    public static (long Bytes, string Sha256) Run(Stream from, Stream to, long most = long.MaxValue)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[BufferBytes];
        long bytes = 0;
        for (int read = from.Read(buffer); read > 0 && bytes <= most; read = from.Read(buffer))
        {
            hash.AppendData(buffer, 0, read);
            to.Write(buffer, 0, read);
            bytes += read;
        }

        return (bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}
