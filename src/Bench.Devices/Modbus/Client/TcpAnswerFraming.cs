using Bench.Devices.Links;

namespace Bench.Devices.Modbus.Client;

/// <summary>TCP answers: the transaction number must be the request's; late ones are passed over whole, so the stream stays in step.</summary>
internal sealed class TcpAnswerFraming : IAnswerFraming
{
    private readonly byte[] _bytes = new byte[4 * ModbusLimits.MostTcpBytes];
    private int _count;
    private ushort _transaction;

    public int PduAt => TcpFrame.HeaderBytes;

    public int Overhead => TcpFrame.HeaderBytes;

    public Memory<byte> Room => _bytes.AsMemory(_count);

    public int Close(Span<byte> frame, int unit, int pduLength)
    {
        unchecked
        {
            _transaction++; // wraps after 65,536 requests, as the field does
        }

        return TcpFrame.Close(frame, _transaction, unit, pduLength);
    }

    public void Begin(ILink link)
    {
        // Only whole frames are thrown away: half a late answer may be here, and its end still to come.
        for (int length; (length = TcpFrame.Length(_bytes.AsSpan(0, _count))) > 0 && length <= _count;)
        {
            Drop(length);
        }
    }

    public void Forget() => _count = 0;

    public void Added(int bytes) => _count += bytes;

    public int TryTake(int unit, ReadOnlySpan<byte> request, int answerLength, Span<byte> pdu)
    {
        while (true)
        {
            int length = TcpFrame.Length(_bytes.AsSpan(0, _count));
            if (length == TcpFrame.Broken)
            {
                _count = 0;
                return IAnswerFraming.Damaged;
            }

            if (length == TcpFrame.NotYetKnown || length > _count)
            {
                return IAnswerFraming.NotYet;
            }

            ReadOnlySpan<byte> frame = _bytes.AsSpan(0, length);
            bool ours = TcpFrame.Transaction(frame) == _transaction;
            bool fits = TcpFrame.Unit(frame) == unit && Answer.Fits(request, answerLength, TcpFrame.Pdu(frame));
            if (ours && fits)
            {
                TcpFrame.Pdu(frame).CopyTo(pdu);
            }

            Drop(length);
            if (ours)
            {
                return fits ? length - TcpFrame.HeaderBytes : IAnswerFraming.Damaged;
            }
        }
    }

    private void Drop(int length)
    {
        _bytes.AsSpan(length, _count - length).CopyTo(_bytes);
        _count -= length;
    }
}
