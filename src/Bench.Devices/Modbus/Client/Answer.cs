namespace Bench.Devices.Modbus.Client;

/// <summary>Whether a PDU answers a request (Application Protocol V1.1b3, sections 6 and 7).</summary>
internal static class Answer
{
    private const int ExceptionLength = 2;

    /// <summary>Whether the PDU is an exception.</summary>
    public static bool IsException(ReadOnlySpan<byte> pdu) => (pdu[0] & 0x80) != 0;

    /// <summary>Whether a PDU fits a request: same function, right length; a write's answer repeats the request.</summary>
    public static bool Fits(ReadOnlySpan<byte> request, int answerLength, ReadOnlySpan<byte> pdu)
    {
        if (pdu.Length == ExceptionLength)
        {
            return pdu[0] == (request[0] | 0x80) && pdu[1] != 0;
        }

        if (pdu.Length != answerLength || pdu[0] != request[0])
        {
            return false;
        }

        return (FunctionCode)request[0] switch
        {
            FunctionCode.ReadCoils or FunctionCode.ReadDiscreteInputs or FunctionCode.ReadHoldingRegisters
                or FunctionCode.ReadInputRegisters or FunctionCode.ReadWriteRegisters => pdu[1] == answerLength - 2,
            _ => pdu.SequenceEqual(request[..answerLength]),
        };
    }
}
