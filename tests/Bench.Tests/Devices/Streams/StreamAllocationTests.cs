using System.Diagnostics;
using System.Reflection;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Streams;

/// <summary>What a frame leaves to the garbage collector.</summary>
public class StreamAllocationTests
{
    [Fact]
    public void Frames_FoundNumberedTimedAndKept_AllocateNothing()
    {
        Assert.SkipWhen(
            typeof(FrameFinder).Assembly.GetCustomAttribute<DebuggableAttribute>()?.IsJITOptimizerDisabled == true,
            "allocation is measured in a release build, which test.sh makes");
        StreamDescription stream = SampleStream.Of();
        byte[] bytes = stream.Frames(0, 256);
        FrameLayout layout = new(stream);
        FrameFinder finder = new(layout);
        SequenceFollower sequence = new(8, 1000);
        StreamClock clock = new(1000);
        StreamBuffer buffer = new(1000, 1);
        DelayTally delays = new();
        double[] values = new double[1];
        long before = 0;
        for (int round = 0; round < 40; round++)
        {
            before = round == 20 ? GC.GetAllocatedBytesForCurrentThread() : before;
            bytes.CopyTo(finder.Room);
            finder.Put(bytes.Length);
            while (finder.TryTake(out ReadOnlySpan<byte> frame))
            {
                double arrivedS = round * 0.256;
                sequence.Take(layout.Sequence(frame), arrivedS);
                double madeS = clock.Take(sequence.Number, arrivedS);
                delays.Add(arrivedS - madeS);
                layout.TryRead(frame, values);
                buffer.Add(1, clock.HalfWidthS, values);
            }
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(40 * 256, buffer.End);
    }
}
