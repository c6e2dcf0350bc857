using System.Security.Cryptography;
using System.Text;

namespace Bench.Records.Keys;

/// <summary>The public half of a bench's key: checks signatures.</summary>
internal sealed class PublicKey : IDisposable
{
    private readonly ECDsa _key;

    private PublicKey(ECDsa key)
    {
        _key = key;
        Fingerprint = FingerprintOf(key);
    }

    /// <summary>SHA-256 over the SubjectPublicKeyInfo (DER), lower-case hexadecimal.</summary>
    public string Fingerprint { get; }

    /// <summary>Reads a key from PEM.</summary>
    /// <exception cref="FormatException">It is no such key.</exception>
    public static PublicKey Parse(string pem)
    {
        ECDsa key = ECDsa.Create();
        try
        {
            key.ImportFromPem(pem);
            return IsP256(key) ? new PublicKey(key) : throw new FormatException("the key is of another curve than NIST P-256");
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException or FormatException)
        {
            key.Dispose();
            throw new FormatException(e.Message, e);
        }
    }

    /// <summary>The fingerprint of a key.</summary>
    public static string FingerprintOf(ECDsa key) => Integrity.Fingerprint.Of(key.ExportSubjectPublicKeyInfo());

    /// <summary>Whether a key is of the curve that a bench signs with.</summary>
    public static bool IsP256(ECDsa key) => key.ExportParameters(includePrivateParameters: false).Curve.Oid.Value == ECCurve.NamedCurves.nistP256.Oid.Value;

    /// <summary>Whether a signature is this key's under a hash.</summary>
    /// <param name="hash">The hash.</param>
    /// <param name="signature">DER in base64.</param>
    public bool Signed(string hash, string signature)
    {
        Span<byte> bytes = stackalloc byte[MostBytes];
        return Convert.TryFromBase64String(signature, bytes, out int length)
            && _key.VerifyData(Encoding.ASCII.GetBytes(hash), bytes[..length], HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
    }

    /// <inheritdoc/>
    public void Dispose() => _key.Dispose();

    /// <summary>Most bytes of a DER signature over P-256 are 72.</summary>
    private const int MostBytes = 80;
}
