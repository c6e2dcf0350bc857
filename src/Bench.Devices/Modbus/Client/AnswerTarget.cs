using System.Buffers.Binary;

namespace Bench.Devices.Modbus.Client;

/// <summary>Where the values of an answer go: one of these, or nowhere.</summary>
internal readonly record struct AnswerTarget(Memory<ushort> Words, Memory<bool> Bits, IdentityReading? Identity)
{
    public static AnswerTarget Of(Memory<ushort> words) => new(words, default, null);

    public static AnswerTarget Of(Memory<bool> bits) => new(default, bits, null);

    public static AnswerTarget Of(IdentityReading identity) => new(default, default, identity);

    /// <summary>Takes the values out of a normal answer's PDU.</summary>
    public void Take(ReadOnlySpan<byte> pdu)
    {
        Span<ushort> words = Words.Span;
        for (int i = 0; i < words.Length; i++)
        {
            words[i] = BinaryPrimitives.ReadUInt16BigEndian(pdu[(2 + (2 * i))..]);
        }

        if (!Bits.IsEmpty)
        {
            PackedBits.Unpack(pdu[2..], Bits.Span);
        }

        Identity?.Take(pdu);
    }
}
