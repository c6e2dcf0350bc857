using System.Text;
using Bench.Model.Configuration;

namespace Bench.Tests.Model.Configuration;

public class FileTextTests
{
    [Theory]
    [InlineData("")]
    [InlineData(" \n\t\r\n")]
    [InlineData("\uFEFF")]
    public void Of_EmptyFile_IsRefused(string text) =>
        Assert.Equal(
            ["a.toml: file: found an empty file; the file must begin with `schema = 1`"],
            Refusal.Messages(() => FileText.Of(Encoding.UTF8.GetBytes(text), "a.toml")));

    [Fact]
    public void Of_OversizeFile_IsRefused() =>
        Assert.Equal(
            ["a.toml: file: found 1048577 bytes; at most 1048576 bytes are allowed; is this the right file?"],
            Refusal.Messages(() => FileText.Of(new byte[(1 << 20) + 1], "a.toml")));

    [Fact]
    public void Of_LargestFile_IsRead() => Assert.Equal(1 << 20, FileText.Of(new string('#', 1 << 20), "a.toml").Text.Length);

    [Fact]
    public void Of_BinaryData_IsRefused() =>
        Assert.Equal(
            ["a.toml:2: file: found binary data; a TOML text file in UTF-8 is allowed; is this the right file?"],
            Refusal.Messages(() => FileText.Of("\u007fELF\n\0\u0001"u8, "a.toml")));

    [Fact]
    public void Of_Utf16_IsRefused() =>
        Assert.Equal(
            ["a.toml: file: found UTF-16 text; save the file as UTF-8"],
            Refusal.Messages(() => FileText.Of([0xFF, 0xFE, (byte)'a', 0], "a.toml")));

    [Fact]
    public void Of_Latin1_IsRefusedWithItsLine() =>
        Assert.Equal(
            ["a.toml:2: file: found bytes that are not UTF-8; save the file as UTF-8"],
            Refusal.Messages(() => FileText.Of([(byte)'a', (byte)'\n', (byte)'k', 0xE9, (byte)'\n'], "a.toml")));

    [Fact]
    public void Of_LoneSurrogate_IsRefused() =>
        Assert.Equal(
            ["a.toml: file: found characters that UTF-8 cannot hold; save the file as UTF-8"],
            Refusal.Messages(() => FileText.Of("a\ud800", "a.toml")));

    // SHA-256 of "abc": FIPS 180-4 example, NIST "Examples with Intermediate Values" (from memory).
    [Fact]
    public void Of_Bytes_HashesThem() =>
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", FileText.Of("abc"u8, "a.toml").Sha256);

    [Fact]
    public void Of_ByteOrderMark_IsKeptInTheTextAndTheHash()
    {
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. "schema = 1"u8];

        FileText file = FileText.Of(bytes, "a.toml");

        Assert.Equal("schema = 1", file.Content);
        Assert.Equal(bytes, Encoding.UTF8.GetBytes(file.Text));
        Assert.Equal(FileText.Of(file.Text, "a.toml"), file);
    }
}
