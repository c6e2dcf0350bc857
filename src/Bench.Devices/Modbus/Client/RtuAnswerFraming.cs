using Bench.Devices.Links;

namespace Bench.Devices.Modbus.Client;

/// <summary>
/// RTU answers: address, function, length and CRC must all be the expected ones; noise and foreign frames before them
/// are passed over. RTU has no transaction number, so an answer of the same shape that comes only after the next
/// request was sent can't be told from that request's own: see <see cref="OwedAnswers"/>.
/// </summary>
internal sealed class RtuAnswerFraming : IAnswerFraming
{
    private readonly byte[] _bytes = new byte[4 * ModbusLimits.MostRtuBytes];
    private int _count;

    public int PduAt => 1;

    public int Overhead => RtuFrame.Overhead;

    public Memory<byte> Room
    {
        get
        {
            if (_count > _bytes.Length - ModbusLimits.MostRtuBytes)
            {
                // A flood: an answer can only end in the newest bytes.
                _bytes.AsSpan(_count - ModbusLimits.MostRtuBytes, ModbusLimits.MostRtuBytes).CopyTo(_bytes);
                _count = ModbusLimits.MostRtuBytes;
            }

            return _bytes.AsMemory(_count);
        }
    }

    public int Close(Span<byte> frame, int unit, int pduLength) => RtuFrame.Close(frame, unit, pduLength);

    public void Begin(ILink link)
    {
        link.DiscardInput();
        _count = 0;
    }

    public void Forget() => _count = 0;

    public void Added(int bytes) => _count += bytes;

    public int TryTake(int unit, ReadOnlySpan<byte> request, int answerLength, Span<byte> pdu)
    {
        for (int start = 0; start + RtuFrame.LeastBytes < _count; start++)
        {
            if (_bytes[start] != unit)
            {
                continue;
            }

            int pduLength = Answer.Length(_bytes.AsSpan(start + 1, _count - start - 1), answerLength);
            int length = RtuFrame.Overhead + pduLength;
            if (pduLength == Answer.NotYetKnown || start + length > _count)
            {
                continue;
            }

            ReadOnlySpan<byte> frame = _bytes.AsSpan(start, length);
            if (RtuFrame.IsWhole(frame) && Answer.Fits(request, answerLength, RtuFrame.Pdu(frame)))
            {
                RtuFrame.Pdu(frame).CopyTo(pdu);
                int rest = start + length;
                _bytes.AsSpan(rest, _count - rest).CopyTo(_bytes);
                _count -= rest;
                return length - RtuFrame.Overhead;
            }
        }

        return IAnswerFraming.NotYet;
    }
}
