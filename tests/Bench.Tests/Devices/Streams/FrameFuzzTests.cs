using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Tests.Model;
using CsCheck;

namespace Bench.Tests.Devices.Streams;

/// <summary>
/// The stream parser under bytes that nobody sent: it never throws, takes only frames that are whole and stood in the bytes, in
/// order, and comes back. Bytes come from the saved corpus, damaged at random, in pieces of any size.
/// </summary>
public class FrameFuzzTests
{
    private const int Rounds = 20_000;

    private static readonly StreamDescription Stream = SampleStream.Of();

    private static readonly byte[][] Corpus =
    [
        .. Directory.EnumerateFiles(Path.Combine(RepositoryFiles.Root, "fixtures", "streams", "corpus"), "*.hex").Order(StringComparer.Ordinal)
            .Select(f => Convert.FromHexString(File.ReadAllLines(f)[1].Replace(" ", "", StringComparison.Ordinal))),
    ];

    private static readonly Gen<byte[]> Bytes = Gen.Select(
        Gen.Int[0, Corpus.Length - 1].Array[1, 6], Gen.Select(Gen.Int[0, 4000], Gen.Byte).Array[0, 4], Gen.Byte.Array[0, 20], Damaged);

    [Fact]
    public void Corpus_EveryFile_IsThere() => Assert.Equal(14, Corpus.Length);

    [Fact]
    public void TryTake_AnyBytes_TakesOnlyWholeFramesInOrder() =>
        Gen.Select(Bytes, Gen.Int[1, 200]).Sample(
            (bytes, piece) =>
            {
                int at = 0;
                foreach (byte[] frame in Take(Stream, bytes, piece))
                {
                    int found = bytes.AsSpan(at).IndexOf(frame);
                    Assert.True(found >= 0 && new FrameLayout(Stream).IsWhole(frame));
                    at += found + frame.Length;
                }
            },
            iter: Rounds);

    [Fact]
    public void TryTake_AnyBytesThenWholeFrames_FindsAllOfThoseButOne() =>
        Gen.Select(Bytes, Gen.Int[1, 200]).Sample(
            (bytes, piece) =>
            {
                byte[] after = Stream.Frames(100, 8);
                int found = Take(Stream, [.. bytes, .. after], piece).Count(f => f[2] is >= 100 and < 108);
                Assert.InRange(found, 7, 9 + (bytes.Length / Stream.FrameBytes));
            },
            iter: Rounds);

    [Fact]
    public void TryTake_AnyBytesWithoutACheck_NeverThrowsAndNeverFillsUp() =>
        Gen.Select(Bytes, Gen.Int[1, 200]).Sample(
            (bytes, piece) => Assert.All(Take(SampleStream.Of(FrameCheckKind.None), bytes, piece), f => Assert.True(f.AsSpan().StartsWith(new byte[] { 0xAA, 0x55 }))),
            iter: Rounds);

    private static List<byte[]> Take(StreamDescription stream, byte[] bytes, int piece)
    {
        FrameFinder finder = new(new FrameLayout(stream));
        List<byte[]> taken = [];
        for (int at = 0; at < bytes.Length; at += piece)
        {
            int count = Math.Min(piece, bytes.Length - at);
            bytes.AsSpan(at, count).CopyTo(finder.Room.Span);
            finder.Put(count);
            while (finder.TryTake(out ReadOnlySpan<byte> frame))
            {
                taken.Add(frame.ToArray());
            }

            Assert.False(finder.Room.IsEmpty);
        }

        return taken;
    }

    private static byte[] Damaged(int[] parts, (int At, byte Value)[] changes, byte[] noise)
    {
        byte[] bytes = [.. parts.SelectMany((p, i) => i == 1 ? [.. noise, .. Corpus[p]] : Corpus[p])];
        foreach ((int at, byte value) in changes)
        {
            bytes[at % bytes.Length] = value;
        }

        return bytes;
    }
}
