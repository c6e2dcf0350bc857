namespace Bench.Model.Entries;

/// <summary>The signature of a bench's key under the hash of a run or an entry.</summary>
/// <param name="Key">Fingerprint of the key.</param>
/// <param name="Value">ECDSA over NIST P-256 with SHA-256 (FIPS 186-5) of the hash's 64 characters; DER (RFC 3279), base64.</param>
public sealed record KeySignature(string Key, string Value);
