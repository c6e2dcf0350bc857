using System.Buffers.Binary;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Records.Journals;

/// <summary>
/// Samples packed for the journal of an open run (docs/records.md). Byte 0 is the format, 1. Then for each sample,
/// little-endian: a byte of flags (bits 0-1 drive, 2-3 index, 4 current follows, 5 voltage follows), the feedback status
/// (byte), the time (double), the count (int32), and current and voltage (double) where flagged.
/// </summary>
public static class SampleChunk
{
    private const byte Format = 1;
    private const int LeastSize = 14;
    private const int MostSize = LeastSize + 16;
    private const int HasCurrent = 1 << 4;
    private const int HasVoltage = 1 << 5;

    /// <summary>Packs samples.</summary>
    public static byte[] Encode(ReadOnlySpan<Sample> samples)
    {
        byte[] buffer = new byte[1 + (samples.Length * MostSize)];
        buffer[0] = Format;
        int at = 1;
        foreach (Sample sample in samples)
        {
            bool current = !double.IsNaN(sample.CurrentA);
            bool voltage = !double.IsNaN(sample.VoltageV);
            buffer[at] = (byte)((int)sample.Drive | ((int)sample.Index << 2) | (current ? HasCurrent : 0) | (voltage ? HasVoltage : 0));
            buffer[at + 1] = (byte)sample.Feedback;
            BinaryPrimitives.WriteDoubleLittleEndian(buffer.AsSpan(at + 2), sample.TimeS);
            BinaryPrimitives.WriteInt32LittleEndian(buffer.AsSpan(at + 10), sample.Count);
            at += LeastSize;
            if (current)
            {
                BinaryPrimitives.WriteDoubleLittleEndian(buffer.AsSpan(at), sample.CurrentA);
                at += sizeof(double);
            }

            if (voltage)
            {
                BinaryPrimitives.WriteDoubleLittleEndian(buffer.AsSpan(at), sample.VoltageV);
                at += sizeof(double);
            }
        }

        return buffer[..at];
    }

    /// <summary>Unpacks samples into a trace.</summary>
    /// <exception cref="FormatException">The bytes are not a chunk of this format.</exception>
    public static void Decode(ReadOnlySpan<byte> chunk, Trace into)
    {
        ArgumentNullException.ThrowIfNull(into);
        if (chunk.IsEmpty || chunk[0] != Format)
        {
            throw new FormatException($"a chunk of samples is of format {(chunk.IsEmpty ? "none" : chunk[0])}, and this program knows format {Format}");
        }

        ReadOnlySpan<byte> rest = chunk[1..];
        while (!rest.IsEmpty)
        {
            int size = rest.Length < LeastSize ? LeastSize : SizeOf(rest[0]);
            if (rest.Length < size)
            {
                throw new FormatException("a chunk of samples ends within a sample");
            }

            into.Add(Unpack(rest));
            rest = rest[size..];
        }
    }

    private static int SizeOf(int flags) =>
        LeastSize + ((flags & HasCurrent) != 0 ? sizeof(double) : 0) + ((flags & HasVoltage) != 0 ? sizeof(double) : 0);

    private static Sample Unpack(ReadOnlySpan<byte> bytes)
    {
        int flags = bytes[0];
        int voltageAt = LeastSize + ((flags & HasCurrent) != 0 ? sizeof(double) : 0);
        return new Sample(
            BinaryPrimitives.ReadDoubleLittleEndian(bytes[2..]),
            (DriveState)(flags & 3),
            (FeedbackStatus)bytes[1],
            BinaryPrimitives.ReadInt32LittleEndian(bytes[10..]),
            (flags & HasCurrent) != 0 ? BinaryPrimitives.ReadDoubleLittleEndian(bytes[LeastSize..]) : double.NaN,
            (flags & HasVoltage) != 0 ? BinaryPrimitives.ReadDoubleLittleEndian(bytes[voltageAt..]) : double.NaN,
            (IndexState)((flags >> 2) & 3));
    }
}
