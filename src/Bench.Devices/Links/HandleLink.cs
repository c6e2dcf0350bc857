using System.Runtime.InteropServices;

namespace Bench.Devices.Links;

/// <summary>
/// A tty or a socket through its own handle, on Linux and macOS. A read first waits in place, for at most 5 ms; then the
/// link's own thread takes over, which sleeps in poll until bytes come or a pipe wakes it. It never times out, so an idle
/// link costs nothing and closing never hangs. Why not the runtime's own streams: docs/decisions/0004.
/// </summary>
internal sealed unsafe class HandleLink : ILink
{
    private const int WriteStallMs = 1000;

    /// <summary>
    /// Longest wait in place. Past the kernel's next tick (4 ms), because a shorter one makes it set the hardware's timer
    /// for each read, which on a virtual machine costs as much as the exchange itself.
    /// </summary>
    private const int InPlaceMs = 5;

    /// <summary>Reads that do not wait in place after one that did so in vain: a silent device should hold up no thread.</summary>
    private const int ReadsAfterVain = 16;

    private readonly int _handle;
    private readonly bool _endIsLoss;
    private readonly Action _close;
    private readonly int _wakeOut;
    private readonly int _wakeIn;
    private readonly ByteInbox _inbox = new();
    private readonly Thread _reader;
    private readonly Lock _using = new();
    private readonly TaskCompletionSource _closed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private bool _armed;
    private int _skip;
    private bool _disposed;

    /// <summary>Takes over an open handle.</summary>
    /// <param name="name">The link's name.</param>
    /// <param name="handle">The handle; it does not block.</param>
    /// <param name="characterTime">Time of one character.</param>
    /// <param name="endIsLoss">Whether end of file means that the channel was lost (a tty) or closed by the other end (a socket).</param>
    /// <param name="close">Gives the handle back.</param>
    public HandleLink(string name, int handle, TimeSpan characterTime, bool endIsLoss, Action close)
    {
        Name = name;
        CharacterTime = characterTime;
        _handle = handle;
        _endIsLoss = endIsLoss;
        _close = close;
        int* ends = stackalloc int[2];
        if (Tty.Pipe(ends) != 0)
        {
            throw new IOException($"no pipe for {name}: {Marshal.GetLastPInvokeErrorMessage()}");
        }

        (_wakeOut, _wakeIn) = (ends[0], ends[1]);
        _reader = new Thread(Read) { IsBackground = true, Name = $"link {name}" };
        _reader.Start();
        PoolRoom.Add(1);
    }

    public string Name { get; }

    public TimeSpan CharacterTime { get; }

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();

        // Does not wait: a frame is far smaller than the port's own buffer.
        lock (_using)
        {
            if (_disposed)
            {
                throw new IOException($"{Name} is closed");
            }

            fixed (byte* start = bytes.Span)
            {
                for (int done = 0; done < bytes.Length;)
                {
                    nint written = Tty.Write(_handle, start + done, (nuint)(bytes.Length - done));
                    done += written > 0 ? (int)written : 0;
                    if (written <= 0)
                    {
                        AwaitRoom(Marshal.GetLastPInvokeError());
                    }
                }
            }
        }

        return ValueTask.CompletedTask;
    }

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (!_inbox.HasSomething && !_disposed && ComesInPlace())
        {
            Receive();
        }

        if (!_inbox.HasSomething)
        {
            Arm();
        }

        return _inbox.ReadAsync(buffer, cancel);
    }

    public void DiscardInput()
    {
        lock (_using)
        {
            byte* dropped = stackalloc byte[256];
            while (!_disposed && Tty.Read(_handle, dropped, 256) > 0)
            {
            }

            _inbox.Clear();
        }
    }

    public ValueTask DisposeAsync()
    {
        lock (_using)
        {
            if (!_disposed)
            {
                _disposed = true;
                Wake();
            }
        }

        return new ValueTask(_closed.Task);
    }

    private void AwaitRoom(int error)
    {
        if (error == Tty.Interrupted)
        {
            return;
        }

        Tty.PollEntry entry = new() { Handle = _handle, Wanted = Tty.PollOut };
        if (error != Tty.TryAgain || Tty.Poll(&entry, 1, WriteStallMs) <= 0)
        {
            throw new IOException($"{Name} went away or takes no bytes: {Marshal.GetPInvokeErrorMessage(error)}");
        }
    }

    private bool ComesInPlace()
    {
        Tty.PollEntry entry = new() { Handle = _handle, Wanted = Tty.PollIn };
        bool came = Tty.Poll(&entry, 1, _skip > 0 ? 0 : InPlaceMs) > 0;
        _skip = came ? 0 : _skip > 0 ? _skip - 1 : ReadsAfterVain;
        return came;
    }

    private void Arm()
    {
        lock (_using)
        {
            if (!_armed && !_disposed)
            {
                _armed = true;
                Wake();
            }
        }
    }

    private void Wake()
    {
        byte wake = 1;
        _ = Tty.Write(_wakeIn, &wake, 1);
    }

    private void Read()
    {
        Tty.PollEntry* entries = stackalloc Tty.PollEntry[2];
        byte* woken = stackalloc byte[16];
        while (true)
        {
            // A negative handle is passed over: while nobody reads, the system keeps the bytes.
            entries[0] = new() { Handle = Volatile.Read(ref _armed) ? _handle : -1, Wanted = Tty.PollIn };
            entries[1] = new() { Handle = _wakeOut, Wanted = Tty.PollIn };
            if (Tty.Poll(entries, 2, -1) < 0)
            {
                continue; // a signal
            }

            if (entries[1].Happened != 0)
            {
                lock (_using)
                {
                    if (_disposed)
                    {
                        break;
                    }

                    _ = Tty.Read(_wakeOut, woken, 16);
                }
            }
            else if (entries[0].Happened != 0)
            {
                Receive();
            }
        }

        _inbox.End("closed");
        PoolRoom.Add(-1);
        _close();
        _ = Tty.Close(_wakeOut);
        _ = Tty.Close(_wakeIn);
        _closed.SetResult();
    }

    // Reading and storing are one step, whoever does them, so that no bytes overtake others.
    private void Receive()
    {
        byte* buffer = stackalloc byte[512];
        lock (_using)
        {
            // While the thread is armed two wait for the same bytes; the slower one finds none.
            Tty.PollEntry entry = new() { Handle = _handle, Wanted = Tty.PollIn };
            if (_disposed || (_armed && Tty.Poll(&entry, 1, 0) <= 0))
            {
                return;
            }

            nint read = Tty.Read(_handle, buffer, 512);
            int error = read < 0 ? Marshal.GetLastPInvokeError() : 0;
            if (read > 0)
            {
                _armed = false;
                _inbox.Put(new ReadOnlySpan<byte>(buffer, (int)read));
            }
            else if (read == 0 || (error != Tty.TryAgain && error != Tty.Interrupted))
            {
                // A pty whose other end is gone says EIO, an adapter that was pulled says 0 or ENXIO.
                _armed = false;
                _inbox.End(read == 0 && !_endIsLoss
                    ? null
                    : $"{Name} went away: {(read == 0 ? "end of file" : Marshal.GetPInvokeErrorMessage(error))}");
            }
        }
    }
}
