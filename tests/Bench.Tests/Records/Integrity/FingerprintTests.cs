using Bench.Records.Integrity;

namespace Bench.Tests.Records.Integrity;

public class FingerprintTests
{
    // NIST, examples for FIPS 180-4 SHA-256: the one-block message "abc", the two-block message; the empty message from
    // the same programme's SHA256ShortMsg vectors (from memory).
    [Theory]
    [InlineData("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    [InlineData("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    public void Of_MessageOfTheStandard_IsItsDigest(string message, string digest) =>
        Assert.Equal(digest, Fingerprint.Of(message));

    [Fact]
    public void OfLink_PartsMovedAcrossABorder_DiffersFromTheOriginal()
    {
        Assert.NotEqual(Fingerprint.OfLink("{}", "ab", "cd"), Fingerprint.OfLink("{}", "abcd", ""));
        Assert.NotEqual(Fingerprint.OfLink("{}", null, "cd"), Fingerprint.OfLink("{}", "cd", ""));
    }
}
