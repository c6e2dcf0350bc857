using System.Runtime.InteropServices;
using Bench.Devices.Links;

namespace Bench.Simulation.Serving;

/// <summary>
/// The devices' end of a pseudo-terminal. It belongs to one thread that does nothing else, so its calls block, and
/// what it returns is always complete; a paced answer leaves when the last bit of it would have on a real wire.
/// </summary>
internal sealed unsafe class PtyMaster(string name, int master, int slave, TimeProvider time, TimeSpan characterTime, TimeSpan turnaround)
    : ILink
{
    private volatile bool _closing;
    private long _readAt;
    private int _readBytes;

    public string Name => name;

    public TimeSpan CharacterTime => characterTime;

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        fixed (byte* start = buffer.Span)
        {
            while (!_closing)
            {
                nint read = Pty.Read(master, start, (nuint)buffer.Length);
                if (read > 0 && !_closing)
                {
                    _readAt = time.GetTimestamp();
                    _readBytes = (int)read;
                    return ValueTask.FromResult(_readBytes);
                }

                if (read <= 0 && Marshal.GetLastPInvokeError() != Pty.Interrupted)
                {
                    break;
                }
            }
        }

        return ValueTask.FromResult(0);
    }

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        Pty.Sleep((characterTime * (_readBytes + bytes.Length)) + turnaround - time.GetElapsedTime(_readAt));
        fixed (byte* start = bytes.Span)
        {
            for (int done = 0; done < bytes.Length && !_closing;)
            {
                nint written = Pty.Write(master, start + done, (nuint)(bytes.Length - done));
                if (written < 0 && Marshal.GetLastPInvokeError() != Pty.Interrupted)
                {
                    throw new IOException($"{name} takes no bytes: {Marshal.GetLastPInvokeErrorMessage()}");
                }

                done += (int)Math.Max(written, 0);
            }
        }

        return ValueTask.CompletedTask;
    }

    public void DiscardInput()
    {
    }

    /// <summary>Ends the reading, from another thread.</summary>
    public ValueTask DisposeAsync()
    {
        // The reader sleeps in read; a byte from our own slave wakes it.
        _closing = true;
        Pty.DropUnread(slave);
        byte wake = 0;
        _ = Pty.Write(slave, &wake, 1);
        return ValueTask.CompletedTask;
    }
}
