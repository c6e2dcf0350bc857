using System.Buffers.Binary;

namespace Bench.Devices.Modbus;

/// <summary>
/// The TCP frame: MBAP header (transaction, protocol 0, length, unit) and PDU
/// (MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3).
/// </summary>
public static class TcpFrame
{
    /// <summary>Bytes of the MBAP header.</summary>
    public const int HeaderBytes = 7;

    /// <summary>What <see cref="Length"/> says when more bytes must come first.</summary>
    public const int NotYetKnown = 0;

    /// <summary>What <see cref="Length"/> says when this cannot be a header; the stream is out of step.</summary>
    public const int Broken = -1;

    /// <summary>Puts the header before a PDU that already stands at <c>frame[7]</c>.</summary>
    /// <returns>The frame's length.</returns>
    public static int Close(Span<byte> frame, int transaction, int unit, int pduLength)
    {
        BinaryPrimitives.WriteUInt16BigEndian(frame, (ushort)transaction);
        BinaryPrimitives.WriteUInt16BigEndian(frame[2..], 0);
        BinaryPrimitives.WriteUInt16BigEndian(frame[4..], (ushort)(pduLength + 1));
        frame[6] = (byte)unit;
        return HeaderBytes + pduLength;
    }

    /// <summary>Length of the frame that begins here.</summary>
    /// <returns>The length, <see cref="NotYetKnown"/> or <see cref="Broken"/>.</returns>
    public static int Length(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < HeaderBytes)
        {
            return NotYetKnown;
        }

        int protocol = BinaryPrimitives.ReadUInt16BigEndian(bytes[2..]);
        int follows = BinaryPrimitives.ReadUInt16BigEndian(bytes[4..]);
        return protocol == 0 && follows is >= 2 and <= ModbusLimits.MostPduBytes + 1 ? follows + 6 : Broken;
    }

    /// <summary>The transaction number.</summary>
    public static int Transaction(ReadOnlySpan<byte> frame) => BinaryPrimitives.ReadUInt16BigEndian(frame);

    /// <summary>The unit address.</summary>
    public static int Unit(ReadOnlySpan<byte> frame) => frame[6];

    /// <summary>The PDU within a whole frame.</summary>
    public static ReadOnlySpan<byte> Pdu(ReadOnlySpan<byte> frame) => frame[HeaderBytes..];
}
