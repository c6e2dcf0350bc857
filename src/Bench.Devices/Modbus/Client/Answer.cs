namespace Bench.Devices.Modbus.Client;

/// <summary>Whether a PDU answers a request (Application Protocol V1.1b3, sections 6 and 7).</summary>
internal static class Answer
{
    /// <summary>What <see cref="Length"/> says when more bytes must come first.</summary>
    public const int NotYetKnown = 0;

    private const int ExceptionLength = 2;
    private const int IdentityHeader = 7;

    /// <summary>Whether the PDU is an exception.</summary>
    public static bool IsException(ReadOnlySpan<byte> pdu) => (pdu[0] & 0x80) != 0;

    /// <summary>Length of the answering PDU that begins here.</summary>
    /// <param name="bytes">What has come of it, at least 1 byte; more may follow it.</param>
    /// <param name="expected">Length of a normal answer, or <see cref="ModbusRequest.ToldByAnswer"/>.</param>
    /// <returns>The length, or <see cref="NotYetKnown"/>.</returns>
    public static int Length(ReadOnlySpan<byte> bytes, int expected)
    {
        if (IsException(bytes))
        {
            return ExceptionLength;
        }

        if (expected != ModbusRequest.ToldByAnswer)
        {
            return expected;
        }

        if (bytes.Length < IdentityHeader)
        {
            return NotYetKnown;
        }

        int length = IdentityHeader;
        for (int i = 0; i < bytes[6]; i++)
        {
            if (length + 2 > bytes.Length)
            {
                return NotYetKnown;
            }

            length += 2 + bytes[length + 1];
        }

        return length;
    }

    /// <summary>Whether a PDU fits a request: same function, right length; a write's answer must repeat the write.</summary>
    /// <param name="request">The request's PDU.</param>
    /// <param name="expected">Length of a normal answer, or <see cref="ModbusRequest.ToldByAnswer"/>.</param>
    /// <param name="pdu">The PDU; at least 1 byte.</param>
    public static bool Fits(ReadOnlySpan<byte> request, int expected, ReadOnlySpan<byte> pdu)
    {
        if (pdu.Length == ExceptionLength)
        {
            return pdu[0] == (request[0] | 0x80) && pdu[1] != 0;
        }

        if (pdu[0] != request[0] || pdu.Length != Length(pdu, expected))
        {
            return false;
        }

        return (FunctionCode)request[0] switch
        {
            FunctionCode.ReadCoils or FunctionCode.ReadDiscreteInputs or FunctionCode.ReadHoldingRegisters
                or FunctionCode.ReadInputRegisters or FunctionCode.ReadWriteRegisters => pdu[1] == expected - 2,
            FunctionCode.EncapsulatedInterface => pdu[1..3].SequenceEqual(request[1..3]),
            _ => pdu.SequenceEqual(request[..expected]),
        };
    }
}
