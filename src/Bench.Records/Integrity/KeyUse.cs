namespace Bench.Records.Integrity;

/// <summary>A key of the bench and what it signed.</summary>
public sealed record KeyUse
{
    /// <summary>Its fingerprint.</summary>
    public string Fingerprint { get; init; } = "";

    /// <summary>When the store first saw it, as the entry says it.</summary>
    public string IntroducedAt { get; init; } = "";

    /// <summary>Runs and entries it signed.</summary>
    public long Signed { get; init; }

    /// <summary>The public key in PEM.</summary>
    public string PublicKey { get; init; } = "";
}
