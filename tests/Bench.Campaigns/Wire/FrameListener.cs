using Bench.Devices.Modbus;

namespace Bench.Campaigns.Wire;

/// <summary>Reads the frames of one link as they pass; knows nothing of what the program makes of them.</summary>
internal sealed class FrameListener(Witness witness, bool rtu) : IListener
{
    private readonly List<byte> _heard = [];
    private int _unit;
    private byte _function;

    public void Sent(ReadOnlySpan<byte> bytes)
    {
        int at = rtu ? 0 : TcpFrame.HeaderBytes - 1;
        ReadOnlySpan<byte> pdu = bytes[(at + 1)..];
        (_unit, _function) = (bytes[at], pdu[0]);
        _heard.Clear();
        int address = (pdu[1] << 8) | pdu[2];
        switch ((FunctionCode)_function)
        {
            case FunctionCode.WriteCoil:
                witness.Writes.Add(new CoilWrite(witness.NowS, address, [pdu[3] == 0xFF]));
                break;
            case FunctionCode.WriteCoils:
                int quantity = (pdu[3] << 8) | pdu[4];
                bool[] on = new bool[quantity];
                for (int i = 0; i < quantity; i++)
                {
                    on[i] = (pdu[6 + (i / 8)] & (1 << (i % 8))) != 0;
                }

                witness.Writes.Add(new CoilWrite(witness.NowS, address, on));
                break;
            default:
                break;
        }
    }

    public void Received(ReadOnlySpan<byte> bytes)
    {
        _heard.AddRange(bytes);
        ReadOnlySpan<byte> all = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_heard);
        int at = rtu ? 0 : TcpFrame.HeaderBytes - 1;
        for (int start = 0; start + at + 1 < all.Length; start++)
        {
            if (all[start + at] == _unit && all[start + at + 1] == _function && IsWhole(all[start..]))
            {
                witness.Answers.Add(new Answered(witness.NowS, _unit));
                if (_function == (byte)FunctionCode.ReadCoils)
                {
                    int count = all[start + at + 2];
                    witness.CoilReads.Add(new CoilRead(witness.NowS, all.Slice(start + at + 3, count).ContainsAnyExcept((byte)0)));
                }

                _heard.Clear();
                return;
            }
        }
    }

    private bool IsWhole(ReadOnlySpan<byte> rest)
    {
        if (!rtu)
        {
            int length = TcpFrame.Length(rest);
            return length > 0 && length <= rest.Length;
        }

        for (int length = RtuFrame.LeastBytes + 1; length <= rest.Length; length++)
        {
            if (RtuFrame.IsWhole(rest[..length]))
            {
                return true;
            }
        }

        return false;
    }
}
