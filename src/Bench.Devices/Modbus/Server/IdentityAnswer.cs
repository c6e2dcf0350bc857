using System.Text;

namespace Bench.Devices.Modbus.Server;

/// <summary>Answers to read device identification (Application Protocol V1.1b3, 6.21), basic category.</summary>
internal static class IdentityAnswer
{
    private const byte BasicStreamAndIndividual = 0x81;
    private const byte Individual = 4;
    private const int HeaderBytes = 7;

    /// <summary>Writes the answer's PDU.</summary>
    /// <param name="identity">What the device is.</param>
    /// <param name="request">The request; sound.</param>
    /// <param name="answer">Room for a PDU.</param>
    /// <param name="length">Its length.</param>
    /// <returns>02 when one object is asked for that the device does not have.</returns>
    public static ExceptionCode Write(DeviceIdentity identity, in ModbusRequest request, Span<byte> answer, out int length)
    {
        byte access = request.Data[0];
        int first = request.Data[1];
        length = 0;
        if (first >= DeviceIdentity.Objects)
        {
            if (access == Individual)
            {
                return ExceptionCode.IllegalDataAddress;
            }

            first = 0; // as if object 0 were asked for (6.21)
        }

        // A higher category than the device has is answered with the one it has (6.21).
        int end = access == Individual ? first + 1 : DeviceIdentity.Objects;
        int at = HeaderBytes;
        int next = first;
        while (next < end && at + 2 + identity[next].Length <= ModbusLimits.MostPduBytes)
        {
            answer[at] = (byte)next;
            answer[at + 1] = (byte)Encoding.ASCII.GetBytes(identity[next], answer[(at + 2)..]);
            at += 2 + answer[at + 1];
            next++;
        }

        bool more = next < end;
        answer[0] = (byte)FunctionCode.EncapsulatedInterface;
        answer[1] = ModbusRequest.DeviceIdentification;
        answer[2] = access;
        answer[3] = BasicStreamAndIndividual;
        answer[4] = more ? (byte)0xFF : (byte)0;
        answer[5] = more ? (byte)next : (byte)0;
        answer[6] = (byte)(next - first);
        length = at;
        return ExceptionCode.None;
    }
}
