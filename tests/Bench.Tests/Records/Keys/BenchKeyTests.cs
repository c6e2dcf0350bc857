using System.Formats.Asn1;
using System.Numerics;
using System.Security.Cryptography;
using Bench.Model.Entries;
using Bench.Records;
using Bench.Records.Keys;

namespace Bench.Tests.Records.Keys;

public sealed class BenchKeyTests : IDisposable
{
    private readonly DataFolder _folder = new();

    private string File => Path.Combine(_folder.Path, "keys", "key.pem");

    [Fact]
    public void Make_NewFile_IsReadableByItsOwnerOnly()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("files have no modes here");
            return;
        }

        BenchKey.Make(File).Dispose();
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, System.IO.File.GetUnixFileMode(File));
    }

    [Fact]
    public void Make_FileThere_LeavesIt()
    {
        BenchKey.Make(File).Dispose();
        string before = System.IO.File.ReadAllText(File);
        Assert.Contains("there is a key", Assert.Throws<StoreException>(() => BenchKey.Make(File)).Message, StringComparison.Ordinal);
        Assert.Equal(before, System.IO.File.ReadAllText(File));
    }

    [Fact]
    public void Load_MadeKey_IsTheSame()
    {
        using BenchKey made = BenchKey.Make(File);
        using BenchKey? loaded = BenchKey.Load(File);
        Assert.Equal(made.Fingerprint, loaded!.Fingerprint);
    }

    [Fact]
    public void Load_NoFile_IsNone() => Assert.Null(BenchKey.Load(File));

    [Fact]
    public void Load_FileOthersCanRead_IsRefused()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("files have no modes here");
            return;
        }

        BenchKey.Make(File).Dispose();
        System.IO.File.SetUnixFileMode(File, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        Assert.Contains("chmod 600", Assert.Throws<StoreException>(() => BenchKey.Load(File)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("no key at all")]
    [InlineData("")]
    public void Load_SomethingElse_SaysWhatAKeyIs(string text)
    {
        BenchKey.Make(File).Dispose();
        System.IO.File.WriteAllText(File, text);
        Assert.Contains("not a private key", Assert.Throws<StoreException>(() => BenchKey.Load(File)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Load_KeyOfAnotherCurve_IsRefused()
    {
        BenchKey.Make(File).Dispose();
        using ECDsa other = ECDsa.Create(ECCurve.NamedCurves.nistP384);
        System.IO.File.WriteAllText(File, other.ExportPkcs8PrivateKeyPem());
        Assert.Contains("another curve", Assert.Throws<StoreException>(() => BenchKey.Load(File)).Message, StringComparison.Ordinal);
    }

    // RFC 6979, A.2.5: the key of curve P-256, message "sample", SHA-256.
    [Theory]
    [InlineData("sample", true)]
    [InlineData("samples", false)]
    public void Signed_PublishedSignature_IsTheKeys(string message, bool signed)
    {
        byte[] prefix = Convert.FromHexString("3059301306072A8648CE3D020106082A8648CE3D03010703420004");
        byte[] point = Convert.FromHexString("60FED4BA255A9D31C961EB74C6356D68C049B8923B61FA6CE669622E60F29FB67903FE1008B8BC99A41AE9E95628BC64F2F1B20C2D7E9F5177A3C294D4462299");
        using PublicKey key = PublicKey.Parse(PemEncoding.WriteString("PUBLIC KEY", [.. prefix, .. point]));
        AsnWriter der = new(AsnEncodingRules.DER);
        using (der.PushSequence())
        {
            der.WriteInteger(Number("EFD48B2AACB6A8FD1140DD9CD45E81D69D2C877B56AAF991C34D0EA84EAF3716"));
            der.WriteInteger(Number("F7CB1C942D657C41D436C7A1B6E29F65F3E900DBB9AFF4064DC4AB2F843ACDA8"));
        }

        Assert.Equal(signed, key.Signed(message, Convert.ToBase64String(der.Encode())));
    }

    [Fact]
    public void Signed_OwnSignature_IsTheKeysAndNoOthers()
    {
        using BenchKey made = BenchKey.Make(File);
        using BenchKey other = BenchKey.Make(File + "2");
        using PublicKey key = PublicKey.Parse(made.PublicPem);
        KeySignature signature = made.Sign(new string('a', 64));
        Assert.True(key.Signed(new string('a', 64), signature.Value));
        Assert.False(key.Signed(new string('b', 64), signature.Value));
        Assert.False(key.Signed(new string('a', 64), other.Sign(new string('a', 64)).Value));
        Assert.False(key.Signed(new string('a', 64), "not base64"));
    }

    public void Dispose() => _folder.Dispose();

    private static BigInteger Number(string hex) => new(Convert.FromHexString(hex), isUnsigned: true, isBigEndian: true);
}
