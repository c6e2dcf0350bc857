namespace Bench.Model.Entries;

/// <summary>A key that the bench signs with from here on. The entry is signed with that key itself.</summary>
public sealed record KeyEntry : StoreEntry
{
    /// <inheritdoc/>
    public override EntryKind Kind => EntryKind.Key;

    /// <summary>SHA-256 over the public key (SubjectPublicKeyInfo, DER; RFC 5280), lower-case hexadecimal.</summary>
    public required string Fingerprint { get; init; }

    /// <summary>The public key: SubjectPublicKeyInfo in PEM (RFC 7468).</summary>
    public required string PublicKey { get; init; }
}
