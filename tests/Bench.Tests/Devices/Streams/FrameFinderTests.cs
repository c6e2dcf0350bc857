using Bench.Devices.Streams;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Streams;

public class FrameFinderTests
{
    private static readonly StreamDescription Stream = SampleStream.Of();

    [Fact]
    public void TryTake_FramesInPiecesOfEachSize_AreAllFound()
    {
        byte[] bytes = Stream.Frames(0, 50);
        for (int piece = 1; piece <= 33; piece++)
        {
            (List<int> found, long damaged) = Find(Stream, bytes, piece);
            Assert.Equal(Enumerable.Range(0, 50), found);
            Assert.Equal(0, damaged);
        }
    }

    [Fact]
    public void TryTake_JoinsInTheMiddleOfAFrame_FindsTheNext() =>
        Assert.Equal(Enumerable.Range(1, 9), Find(Stream, Stream.Frames(0, 10)[3..], 7).Found);

    [Theory]
    [InlineData(FrameCheckKind.Crc16)]
    [InlineData(FrameCheckKind.Sum8)]
    public void TryTake_OneDamagedFrame_LosesThatOneAndCountsIt(FrameCheckKind check)
    {
        StreamDescription stream = SampleStream.Of(check);
        byte[] bytes = stream.Frames(0, 10);
        bytes[45] ^= 0x10;
        (List<int> found, long damaged) = Find(stream, bytes, 16);
        Assert.Equal([0, 1, 2, 3, 5, 6, 7, 8, 9], found);
        Assert.Equal(1, damaged);
    }

    [Fact]
    public void TryTake_NoiseBetweenFrames_LosesNone()
    {
        byte[] noise = [0xAA, 0x00, 0xAA, 0x55, 0x13, 0xFF, 0xAA];
        byte[] bytes = [.. Stream.Frames(0, 3), .. noise, .. Stream.Frames(3, 3)];
        (List<int> found, long damaged) = Find(Stream, bytes, 5);
        Assert.Equal([0, 1, 2, 3, 4, 5], found);
        Assert.Equal(1, damaged);
    }

    [Fact]
    public void TryTake_ByteLostWithoutACheck_ComesBackAtTheNextSync()
    {
        StreamDescription stream = SampleStream.Of(FrameCheckKind.None);
        byte[] bytes = stream.Frames(0, 8);
        (List<int> found, _) = Find(stream, [.. bytes[..35], .. bytes[36..]], 9);
        Assert.Equal([0, 1, 2], found.Take(3));
        Assert.Equal([5, 6, 7], found.TakeLast(3));
    }

    [Fact]
    public void TryTake_WithoutACheckAndASyncInTheData_IsNotFooled()
    {
        StreamDescription stream = SampleStream.Of(FrameCheckKind.None);
        byte[] bytes = [.. Enumerable.Range(0, 6).SelectMany(i => stream.Frame(i, count: 0x55AA))];
        Assert.Equal(Enumerable.Range(1, 5), Find(stream, bytes[4..], 4).Found.TakeLast(5));
    }

    internal static (List<int> Found, long Damaged) Find(StreamDescription stream, byte[] bytes, int piece)
    {
        FrameLayout layout = new(stream);
        FrameFinder finder = new(layout);
        List<int> found = [];
        for (int at = 0; at < bytes.Length; at += piece)
        {
            int count = Math.Min(piece, bytes.Length - at);
            bytes.AsSpan(at, count).CopyTo(finder.Room.Span);
            finder.Put(count);
            while (finder.TryTake(out ReadOnlySpan<byte> frame))
            {
                Assert.True(layout.IsWhole(frame) && frame.StartsWith(layout.Sync));
                found.Add((int)layout.Sequence(frame));
            }
        }

        return (found, finder.Damaged);
    }
}
