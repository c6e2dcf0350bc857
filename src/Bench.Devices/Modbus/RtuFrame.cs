using System.Buffers.Binary;

namespace Bench.Devices.Modbus;

/// <summary>The serial frame: address, PDU, CRC with its low byte first (Serial Line V1.02, 2.5.1).</summary>
public static class RtuFrame
{
    /// <summary>Shortest frame: address, function, CRC.</summary>
    public const int LeastBytes = 4;

    /// <summary>Bytes around a PDU.</summary>
    public const int Overhead = 3;

    /// <summary>What <see cref="RequestLength"/> says when more bytes must come first.</summary>
    public const int NotYetKnown = 0;

    /// <summary>What <see cref="RequestLength"/> says for a function it does not know.</summary>
    public const int UnknownFunction = -1;

    /// <summary>Puts address and CRC around a PDU that already stands at <c>frame[1]</c>.</summary>
    /// <returns>The frame's length.</returns>
    public static int Close(Span<byte> frame, int address, int pduLength)
    {
        frame[0] = (byte)address;
        BinaryPrimitives.WriteUInt16LittleEndian(frame[(pduLength + 1)..], Crc16.Of(frame[..(pduLength + 1)]));
        return pduLength + Overhead;
    }

    /// <summary>Whether bytes are one whole frame by length and CRC.</summary>
    public static bool IsWhole(ReadOnlySpan<byte> frame) =>
        frame.Length is >= LeastBytes and <= ModbusLimits.MostRtuBytes
        && BinaryPrimitives.ReadUInt16LittleEndian(frame[^2..]) == Crc16.Of(frame[..^2]);

    /// <summary>The PDU within a whole frame.</summary>
    public static ReadOnlySpan<byte> Pdu(ReadOnlySpan<byte> frame) => frame[1..^2];

    /// <summary>
    /// Length of the request frame that begins here, told by its function code and byte count.
    /// </summary>
    /// <returns>The length, <see cref="NotYetKnown"/>, or <see cref="UnknownFunction"/>.</returns>
    public static int RequestLength(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 2)
        {
            return NotYetKnown;
        }

        return (FunctionCode)bytes[1] switch
        {
            FunctionCode.ReadCoils or FunctionCode.ReadDiscreteInputs or FunctionCode.ReadHoldingRegisters
                or FunctionCode.ReadInputRegisters or FunctionCode.WriteCoil or FunctionCode.WriteRegister
                or FunctionCode.Diagnostics => 8, // diagnostics with one word, the usual; more is told by its CRC
            FunctionCode.EncapsulatedInterface when bytes.Length > 2 =>
                bytes[2] == ModbusRequest.DeviceIdentification ? 7 : UnknownFunction,
            FunctionCode.EncapsulatedInterface => NotYetKnown,
            FunctionCode.MaskWriteRegister => 10,
            FunctionCode.WriteCoils or FunctionCode.WriteRegisters => bytes.Length > 6 ? 9 + bytes[6] : NotYetKnown,
            FunctionCode.ReadWriteRegisters => bytes.Length > 10 ? 13 + bytes[10] : NotYetKnown,
            _ => UnknownFunction,
        };
    }
}
