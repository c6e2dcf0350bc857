using Bench.Devices.Streams;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Streams;

/// <summary>A stream of one 16-bit count in frames of ten bytes, and frames of it.</summary>
internal static class SampleStream
{
    public static StreamDescription Of(FrameCheckKind check = FrameCheckKind.Crc16, double rateHz = 1000, int sequenceBits = 8) => new()
    {
        FrameBytes = 10,
        Sync = [0xAA, 0x55],
        Check = check,
        RateHz = rateHz,
        SequenceOffset = 2,
        SequenceBits = sequenceBits,
        Fields = [new StreamField("count", 6, FieldType.Uint16)],
    };

    public static DeviceDescription Device(StreamDescription stream, double timeoutMs = 40) =>
        new() { Name = "encoder", Link = "bus", TimeoutMs = timeoutMs, Stream = stream };

    public static byte[] Frame(this StreamDescription stream, int number, double? count = null)
    {
        byte[] frame = new byte[stream.FrameBytes];
        new FrameLayout(stream).Write((uint)number, [count ?? number], frame);
        return frame;
    }

    public static byte[] Frames(this StreamDescription stream, int first, int count) =>
        [.. Enumerable.Range(first, count).SelectMany(i => stream.Frame(i))];
}
