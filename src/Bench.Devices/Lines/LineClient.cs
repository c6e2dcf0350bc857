using System.Text;
using Bench.Devices.Buses;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Model.Instruments;

namespace Bench.Devices.Lines;

/// <summary>
/// Sends lines of ASCII and waits for lines. One exchange at a time; nothing is ever sent twice here. Lines carry no
/// transaction numbers: what has arrived before a request is thrown away, but an answer later than its time-out and
/// later than the next request would be taken for that one's.
/// </summary>
public sealed class LineClient : ILinkClient, IAsyncDisposable
{
    /// <summary>Longest line taken; a longer one is noise, or another speed.</summary>
    public const int MostLineBytes = 512;

    private readonly ILink _link;
    private readonly TimeProvider _time;
    private readonly AnswerClock _clock;
    private readonly byte[] _line = new byte[MostLineBytes];

    /// <summary>Makes a client. The link stays the caller's to close.</summary>
    public LineClient(ILink link, TimeProvider time)
    {
        _link = link;
        _time = time;
        _clock = new AnswerClock(time);
    }

    /// <summary>Lines keep no silence between them: the next may begin at once.</summary>
    public ValueTask ReadyAsync(CancellationToken cancel) => ValueTask.CompletedTask;

    /// <summary>Sends one line and, if one is expected, waits for the answer.</summary>
    /// <param name="message">ASCII, without terminator.</param>
    /// <param name="terminator">What ends a line; an answer ends with its last character.</param>
    /// <param name="answered">Whether an answer is expected.</param>
    /// <param name="timeout">Longest time from the end of the request on the wire to the end of the answer.</param>
    /// <param name="cancel">Gives up; the answer, if it comes, is thrown away.</param>
    public async ValueTask<LineResult> ExchangeAsync(
        string message, string terminator, bool answered, TimeSpan timeout, CancellationToken cancel)
    {
        byte[] request = Encoding.ASCII.GetBytes(message + terminator);
        TimeSpan requestTime = _link.CharacterTime * request.Length;
        int length = 0;
        try
        {
            _link.DiscardInput();
            long sent = _time.GetTimestamp();
            await _link.WriteAsync(request, cancel);
            if (!answered)
            {
                return new LineResult(null, "", sent, 0, TimeSpan.Zero);
            }

            CancellationToken overdue = _clock.Overdue;
            _clock.Start(sent, requestTime + timeout);
            using CancellationTokenRegistration given = cancel.UnsafeRegister(static c => ((AnswerClock)c!).GiveUp(), _clock);
            while (true)
            {
                int read = await _link.ReadAsync(_line.AsMemory(length), overdue);
                if (read == 0)
                {
                    return LineResult.Failed(DeviceFaultKind.LinkLost);
                }

                int searched = length;
                length += read;
                int end = Array.IndexOf(_line, (byte)terminator[^1], searched, read);
                if (end >= 0 && IsBlank(_line.AsSpan(0, end)))
                {
                    // What is left of the line before, e.g. the line feed of a device that sends both.
                    _line.AsSpan(end + 1, length - end - 1).CopyTo(_line);
                    length -= end + 1;
                    end = Array.IndexOf(_line, (byte)terminator[^1], 0, length);
                }

                if (end >= 0)
                {
                    return Result(_line.AsSpan(0, end), sent, requestTime);
                }

                if (length == MostLineBytes)
                {
                    return LineResult.Failed(DeviceFaultKind.Garbled, "a line without end");
                }
            }
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return length == 0 ? LineResult.Failed(DeviceFaultKind.Silent) : LineResult.Failed(DeviceFaultKind.Garbled, Shown(_line.AsSpan(0, length)));
        }
        catch (IOException)
        {
            return LineResult.Failed(DeviceFaultKind.LinkLost);
        }
        finally
        {
            _clock.Stop();
        }
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _clock.DisposeAsync();

    private static bool IsBlank(ReadOnlySpan<byte> line) => !line.ContainsAnyExcept(" \t\r\n\0"u8);

    // Whatever came, on one line and without control characters.
    private static string Shown(ReadOnlySpan<byte> line)
    {
        StringBuilder text = new(line.Length);
        foreach (byte b in line)
        {
            text.Append(b is >= (byte)' ' and <= (byte)'~' ? (char)b : '?');
        }

        return text.ToString().Trim(' ', '?');
    }

    private LineResult Result(ReadOnlySpan<byte> line, long sent, TimeSpan requestTime)
    {
        long received = _time.GetTimestamp();
        ReadOnlySpan<byte> text = line.Trim(" \t\r\n\0"u8);
        if (text.ContainsAnyExceptInRange((byte)' ', (byte)'~'))
        {
            return LineResult.Failed(DeviceFaultKind.Garbled, Shown(text));
        }

        TimeSpan roundTrip = _time.GetElapsedTime(sent, received);
        TimeSpan answerTime = _link.CharacterTime * (line.Length + 1);
        TimeSpan turnaround = roundTrip - requestTime - answerTime;

        // A channel quicker than its wire would be (a pty): all that is known is, between sending and receiving.
        (TimeSpan before, TimeSpan half) = turnaround >= TimeSpan.Zero
            ? (answerTime + (turnaround / 2), turnaround / 2)
            : (roundTrip / 2, roundTrip / 2);
        long at = received - (long)(before.TotalSeconds * _time.TimestampFrequency);
        return new LineResult(null, Encoding.ASCII.GetString(text), at, half.TotalSeconds, roundTrip);
    }
}
