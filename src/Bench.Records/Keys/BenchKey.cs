using System.Security.Cryptography;
using System.Text;
using Bench.Model.Entries;

namespace Bench.Records.Keys;

/// <summary>
/// A key the bench signs with: ECDSA over NIST P-256 with SHA-256 (FIPS 186-5), by the platform. The private key is a
/// PKCS #8 PEM file that only its owner can read, outside of the data folder, so that no copy of the data carries it.
/// </summary>
public sealed class BenchKey : IDisposable
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const UnixFileMode OfOthers =
        UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;

    private readonly ECDsa _key;

    private BenchKey(ECDsa key)
    {
        _key = key;
        PublicPem = key.ExportSubjectPublicKeyInfoPem();
        Fingerprint = PublicKey.FingerprintOf(key);
    }

    /// <summary>SHA-256 over the public key (SubjectPublicKeyInfo, DER), lower-case hexadecimal.</summary>
    public string Fingerprint { get; }

    /// <summary>The public key: SubjectPublicKeyInfo in PEM.</summary>
    public string PublicPem { get; }

    /// <summary>Makes a key and writes it to a new file.</summary>
    /// <exception cref="StoreException">The file is there already, or can't be written.</exception>
    public static BenchKey Make(string path)
    {
        string full = Path.GetFullPath(path);
        ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = OwnerOnly;
            }

            using FileStream file = new(full, options);
            file.Write(Encoding.ASCII.GetBytes(key.ExportPkcs8PrivateKeyPem() + "\n"));
            file.Flush(flushToDisk: true);
            return new BenchKey(key);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            key.Dispose();
            throw new StoreException(
                File.Exists(full)
                    ? $"there is a key in '{full}' already; what it signed needs its public half only, so to change keys move the file away first and keep it safe"
                    : $"cannot write a key to '{full}': {e.Message}", e);
        }
    }

    /// <summary>Reads a key's file; null when there is none.</summary>
    /// <exception cref="StoreException">It is no such key, can't be read, or others can read it.</exception>
    public static BenchKey? Load(string path)
    {
        string full = Path.GetFullPath(path);
        if (!File.Exists(full))
        {
            return null;
        }

        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(full) & OfOthers) != 0)
        {
            throw new StoreException($"others than its owner can read or write the key '{full}', so its signatures would prove nothing; if nobody did, 'chmod 600' it, else make a new one");
        }

        ECDsa key = ECDsa.Create();
        try
        {
            key.ImportFromPem(File.ReadAllText(full));
            return PublicKey.IsP256(key)
                ? new BenchKey(key)
                : throw new CryptographicException("it is of another curve");
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException or IOException or UnauthorizedAccessException)
        {
            key.Dispose();
            throw new StoreException($"'{full}' is not a private key of this bench (PKCS #8 PEM, NIST P-256): {e.Message}; restore it, or move it away and make one with 'bench key make'", e);
        }
    }

    /// <summary>Signs a hash.</summary>
    /// <param name="hash">Hash of a run or an entry, as the store writes it.</param>
    public KeySignature Sign(string hash) => new(
        Fingerprint,
        Convert.ToBase64String(_key.SignData(Encoding.ASCII.GetBytes(hash), HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence)));

    /// <inheritdoc/>
    public void Dispose() => _key.Dispose();
}
