using System.Runtime.InteropServices;

namespace Bench.Devices.Links;

/// <summary>
/// A serial port through its own handle, on Linux and macOS. One thread sleeps in poll until bytes come or the link is
/// closed by way of a pipe; it never times out, so an idle link costs nothing and closing never hangs.
/// </summary>
internal sealed unsafe class TtyLink : ILink
{
    private const int WriteStallMs = 1000;

    private readonly int _handle;
    private readonly int _wakeOut;
    private readonly int _wakeIn;
    private readonly ByteInbox _inbox = new();
    private readonly Thread _reader;
    private readonly Lock _using = new();
    private readonly TaskCompletionSource _closed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private bool _disposed;

    /// <summary>Takes over an open handle.</summary>
    public TtyLink(string name, int handle, TimeSpan characterTime)
    {
        Name = name;
        CharacterTime = characterTime;
        _handle = handle;
        int* ends = stackalloc int[2];
        if (Tty.Pipe(ends) != 0)
        {
            throw new IOException($"no pipe for {name}: {Marshal.GetLastPInvokeErrorMessage()}");
        }

        (_wakeOut, _wakeIn) = (ends[0], ends[1]);
        _reader = new Thread(Read) { IsBackground = true, Name = $"link {name}" };
        _reader.Start();
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

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => _inbox.ReadAsync(buffer, cancel);

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
                byte wake = 1;
                _ = Tty.Write(_wakeIn, &wake, 1);
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
            throw new IOException($"{Name} takes no bytes: {Marshal.GetPInvokeErrorMessage(error)}");
        }
    }

    private void Read()
    {
        byte* buffer = stackalloc byte[512];
        Tty.PollEntry* entries = stackalloc Tty.PollEntry[2];
        string? lost = null;
        while (lost is null)
        {
            entries[0] = new() { Handle = _handle, Wanted = Tty.PollIn };
            entries[1] = new() { Handle = _wakeOut, Wanted = Tty.PollIn };
            if (Tty.Poll(entries, 2, -1) < 0)
            {
                lost = Marshal.GetLastPInvokeError() == Tty.Interrupted ? null : Marshal.GetLastPInvokeErrorMessage();
                continue;
            }

            if (entries[1].Happened != 0)
            {
                lost = "closed";
                continue;
            }

            nint read;
            int error;
            lock (_using)
            {
                read = Tty.Read(_handle, buffer, 512);
                error = read < 0 ? Marshal.GetLastPInvokeError() : 0;
                if (read > 0)
                {
                    _inbox.Put(new ReadOnlySpan<byte>(buffer, (int)read));
                }
            }

            if (read == 0 || (read < 0 && error != Tty.TryAgain && error != Tty.Interrupted))
            {
                // A pty whose other end is gone says EIO, an adapter that was pulled says 0 or ENXIO.
                lost = $"{Name} went away: {(read == 0 ? "end of file" : Marshal.GetPInvokeErrorMessage(error))}";
            }
        }

        _inbox.End(lost);
        AwaitDispose(entries);
        lock (_using)
        {
            Tty.AdmitOthers(_handle);
            _ = Tty.Close(_handle);
            _ = Tty.Close(_wakeOut);
            _ = Tty.Close(_wakeIn);
        }

        _closed.SetResult();
    }

    // The handles stay open until the owner lets go: a number closed early may be given to another file.
    private void AwaitDispose(Tty.PollEntry* entries)
    {
        do
        {
            entries[0] = new() { Handle = _wakeOut, Wanted = Tty.PollIn };
        }
        while (Tty.Poll(entries, 1, -1) < 0 && Marshal.GetLastPInvokeError() == Tty.Interrupted);
    }
}
