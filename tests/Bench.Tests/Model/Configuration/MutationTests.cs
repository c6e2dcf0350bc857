using System.Text;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using CsCheck;

namespace Bench.Tests.Model.Configuration;

/// <summary>However a valid file is damaged, it is read or refused in words; nothing else escapes.</summary>
public class MutationTests
{
    private static readonly string[] Pieces =
    [
        "[", "]", "[[", "]]", "{", "}", "=", "\"", "\"\"\"", "'", "'''", ".", ",", "#", "\n", "\r", "\t", "\\u12", "\"\\ud800\"", "\"\\Uffffffff\"", "\\", "-", "_", "é", "nan",
        "-inf", "true", "99999999999999999999", "1e999", "-0.0", "0x7fffffffffffffff", "2026-02-30", "2026-03-02T25:00:00", "07:30:00", "[fault.shows]\n",
        "[[limit]]\n", "[position.current]\n", "shows = 1\n", "schema = 1\n", "a.b.c = 1\n", "\"\" = 1\n", "x = [[1], {y = 2}]\n", "\u0000", "\u007f",
    ];

    private static readonly byte[][] Files =
    [
        .. RepositoryFiles.In("profiles", ".toml").Concat(RepositoryFiles.In("fixtures/benches", ".toml"))
            .Select(path => File.ReadAllBytes(Path.Combine(RepositoryFiles.Root, path))),
        Encoding.UTF8.GetBytes(Profiles.SmallProfile.Text),
        Encoding.UTF8.GetBytes(BenchFiles.SmallBench.Text),
    ];

    private static readonly Gen<byte[]> Damaged =
        Gen.Select(
            Gen.Int[0, Files.Length - 1].Select(i => Files[i]),
            Gen.Select(Gen.Int[0, 4], Gen.Double[0, 1], Gen.Int[1, 40], Gen.Byte, Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])).Array[1, 4],
            (file, edits) => edits.Aggregate(file, (bytes, edit) => Damage(bytes, edit)));

    [Fact]
    public void Read_DamagedFile_IsReadOrRefused() =>
        Damaged.Sample(
            bytes =>
            {
                ReadOrRefuse(() => ProfileReader.Read(bytes, "p.toml"));
                ReadOrRefuse(() => BenchFileReader.Read(bytes, "b.toml"));
            },
            print: bytes => Encoding.UTF8.GetString(bytes),
            iter: 2_000);

    [Fact]
    public void Read_ArbitraryBytes_IsRefused() =>
        Gen.Byte.Array[0, 200].Sample(bytes =>
        {
            Assert.Throws<ConfigurationException>(() => ProfileReader.Read(bytes, "p.toml"));
            Assert.Throws<ConfigurationException>(() => BenchFileReader.Read(bytes, "b.toml"));
        });

    [Fact]
    public void Read_ProfileAsBenchFile_IsRefused() =>
        Assert.Throws<ConfigurationException>(() => BenchFileReader.Read(Profiles.SmallProfile.Text, "p.toml"));

    private static void ReadOrRefuse(Action read)
    {
        try
        {
            read();
        }
        catch (ConfigurationException e)
        {
            Assert.NotEmpty(e.Errors);
            Assert.All(e.Errors, error => Assert.False(string.IsNullOrWhiteSpace(error.Key) || string.IsNullOrWhiteSpace(error.Found) || string.IsNullOrWhiteSpace(error.Allowed)));
        }
    }

    private static byte[] Damage(byte[] bytes, (int Kind, double Where, int Length, byte Value, string Piece) edit)
    {
        int at = (int)(edit.Where * bytes.Length);
        int end = Math.Min(bytes.Length, at + edit.Length);
        int line = Math.Max(0, Array.LastIndexOf(bytes, (byte)'\n', Math.Max(0, Math.Min(at, bytes.Length - 1))));
        return edit.Kind switch
        {
            0 => [.. bytes[..at], .. bytes[end..]],
            1 => [.. bytes[..end], .. bytes[at..]],
            2 => [.. bytes[..at], edit.Value, .. bytes[end..]],
            3 => [.. bytes[..line], (byte)'\n', .. Encoding.UTF8.GetBytes(edit.Piece), .. bytes[line..]],
            _ => [.. bytes[..at], .. Encoding.UTF8.GetBytes(edit.Piece), .. bytes[end..]],
        };
    }
}
