using System.Runtime.CompilerServices;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>
/// A device that pushes frames unasked, alone on its link. Reads it for as long as it is open, numbers the frames, times
/// them by the device's own clock, and keeps the latest for whoever takes them.
/// </summary>
public sealed class StreamDevice : IAsyncDisposable
{
    // After a link was lost: how often it is looked at again.
    private static readonly TimeSpan Again = TimeSpan.FromMilliseconds(100);

    private readonly Lock _lock = new();
    private readonly ILink _link;
    private readonly DeviceDescription _device;
    private readonly bool _isFeedback;
    private readonly TimeProvider _time;
    private readonly long _start;
    private readonly FrameFinder _finder;
    private readonly SequenceFollower _sequence;
    private readonly StreamClock _clock;
    private readonly StreamBuffer _buffer;
    private readonly DelayTally _delays = new();
    private readonly double[] _values;
    private readonly double _frameS;
    private readonly CancellationTokenSource _closing = new();
    private readonly List<TaskCompletionSource> _waiting = [];
    private Task _running = Task.CompletedTask;
    private long _arrived;
    private long _lastAt;
    private bool _lost;
    private long _frames;
    private long _missing;
    private long _doubled;
    private long _noReading;
    private long _damagedBefore;
    private long _restarted;
    private long _silences;
    private long _dropped;

    /// <summary>Makes a device; <see cref="Start"/> begins to read it. The link stays the caller's to close.</summary>
    /// <param name="link">Its link.</param>
    /// <param name="device">Its description, with a stream.</param>
    /// <param name="isFeedback">Whether it is a unit's own feedback.</param>
    /// <param name="time">Clock.</param>
    public StreamDevice(ILink link, DeviceDescription device, bool isFeedback, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(link);
        ArgumentNullException.ThrowIfNull(device);
        ArgumentNullException.ThrowIfNull(time);
        StreamDescription stream = device.Stream ?? throw new ArgumentException($"device '{device.Name}' pushes no frames", nameof(device));
        (_link, _device, _isFeedback, _time) = (link, device, isFeedback, time);
        _start = time.GetTimestamp();
        Layout = new FrameLayout(stream);
        _finder = new FrameFinder(Layout);
        _sequence = new SequenceFollower(stream.SequenceBits, stream.RateHz);
        _clock = new StreamClock(stream.RateHz);
        _buffer = new StreamBuffer(stream.RateHz, Layout.Fields);
        _values = new double[Layout.Fields];
        _frameS = link.CharacterTime.TotalSeconds * stream.FrameBytes;
        _arrived = _start;
    }

    /// <summary>The device's name in the bench file.</summary>
    public string Name => _device.Name;

    /// <summary>What its frames mean.</summary>
    public FrameLayout Layout { get; }

    /// <summary>Frames so far: each that came or should have is an exchange, one that is missing had no answer.</summary>
    public LinkCounts Counts
    {
        get
        {
            lock (_lock)
            {
                StreamDelivery delivery = Delivery_NeedsLock();
                return new LinkCounts(
                    Name,
                    _link.Name,
                    _isFeedback,
                    delivery.Frames + delivery.Lost + delivery.Damaged + _silences,
                    delivery.Lost + _silences,
                    delivery.Damaged,
                    0)
                { Stream = delivery };
            }
        }
    }

    /// <summary>The clock's timestamp.</summary>
    internal long Now => _time.GetTimestamp();

    /// <summary>Begins to read.</summary>
    public void Start() => _running = RunAsync();

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _closing.Cancel(); // not CancelAsync: it would leave the scheduler for the thread pool
        await _running;
        _closing.Dispose();
    }

    /// <summary>Says a failed reading in words.</summary>
    public DeviceFault Fault(DeviceFaultKind kind) => new(kind, Name, _link.Name, kind switch
    {
        DeviceFaultKind.LinkLost => "waited for a frame, but the link is gone; check the adapter, its cable and the network",
        DeviceFaultKind.Garbled => "got frames, but none that is whole; check speed and parity, and [device.stream] in the bench file against the device's manual",
        _ => $"waited for a frame, none came within {_device.TimeoutMs:0.#} ms; check its power and wiring, the speed, and that it is set to send by itself",
    });

    /// <summary>Copies the newest frame; where the stream is silent, waits for one.</summary>
    /// <param name="askedBefore">Timestamp of the last reading that failed: as a polled device, a silent one is waited for anew each time.</param>
    /// <param name="values">Takes its numbers.</param>
    /// <param name="cancel">Gives up.</param>
    /// <returns>The frame, or why there is none, and the place after it.</returns>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    internal async ValueTask<(StreamFrame Frame, long End)> NewestAsync(long askedBefore, double[] values, CancellationToken cancel)
    {
        TimeSpan timeout = TimeSpan.FromMilliseconds(_device.TimeoutMs);
        while (true)
        {
            TaskCompletionSource arrival;
            TimeSpan left;
            lock (_lock)
            {
                if (!_lost && _buffer.End > 0 && _time.GetElapsedTime(_arrived) < timeout)
                {
                    return (Copy_NeedsLock(_buffer.End - 1, values), _buffer.End);
                }

                left = timeout - _time.GetElapsedTime(Math.Max(_arrived, askedBefore));
                if (_lost || left <= TimeSpan.Zero)
                {
                    _silences++;
                    return (new StreamFrame(_lost ? DeviceFaultKind.LinkLost : Silence_NeedsLock(), 0, 0), _buffer.End);
                }

                arrival = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                _waiting.RemoveAll(static w => w.Task.IsCompleted);
                _waiting.Add(arrival);
            }

            // Not Task.WaitAsync: its continuation would leave the scheduler for the thread pool.
            await using ITimer timer = _time.CreateTimer(static w => ((TaskCompletionSource)w!).TrySetResult(), arrival, left, Timeout.InfiniteTimeSpan);
            await using CancellationTokenRegistration given = cancel.UnsafeRegister(static (w, t) => ((TaskCompletionSource)w!).TrySetCanceled(t), arrival);
            await arrival.Task;
        }
    }

    /// <summary>Copies the frame at a place, or the oldest kept after it.</summary>
    /// <param name="place">The place; set behind what was copied.</param>
    /// <param name="values">Takes its numbers.</param>
    /// <param name="frame">The frame.</param>
    internal bool TryCopy(ref long place, double[] values, out StreamFrame frame)
    {
        lock (_lock)
        {
            if (place < _buffer.First)
            {
                _dropped += _buffer.First - place;
                place = _buffer.First;
            }

            if (place >= _buffer.End)
            {
                frame = default;
                return false;
            }

            frame = Copy_NeedsLock(place++, values);
            return true;
        }
    }

    /// <summary>Takes one for no reading after all: a count that is no whole number.</summary>
    internal void CountDamaged()
    {
        lock (_lock)
        {
            _noReading++;
        }
    }

    private async Task RunAsync()
    {
        while (!_closing.IsCancellationRequested)
        {
            try
            {
                int read = await _link.ReadAsync(_finder.Room, _closing.Token);
                Take(read);
                if (read == 0)
                {
                    await Task.Delay(Again, _time, _closing.Token);
                }
            }
            catch (IOException)
            {
                Take(0);
                await Task.Delay(Again, _time, _closing.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    // What was read, 0 for a link that is gone.
    private void Take(int read)
    {
        lock (_lock)
        {
            _lost = read == 0;
            long now = _time.GetTimestamp();
            long before = _buffer.End;
            _finder.Put(read);
            while (_finder.TryTake(out ReadOnlySpan<byte> frame))
            {
                Take_NeedsLock(frame, now);
            }

            if (_lost || _buffer.End != before)
            {
                // They run later, not under the lock.
                _waiting.ForEach(w => w.TrySetResult());
                _waiting.Clear();
            }
        }
    }

    private void Take_NeedsLock(ReadOnlySpan<byte> frame, long now)
    {
        double arrivedS = (now - _start) / (double)_time.TimestampFrequency;
        long step = _sequence.Take(Layout.Sequence(frame), arrivedS);
        if (step == 0)
        {
            _doubled++;
            return;
        }

        if (step < 0)
        {
            _restarted++;
            _clock.Reset();
        }
        else
        {
            // One that came damaged is missing too; it is counted once.
            _missing += Math.Max(0, step - 1 - (_finder.Damaged - _damagedBefore));
        }

        _damagedBefore = _finder.Damaged;
        double madeS = _clock.Take(_sequence.Number, arrivedS);
        _delays.Add(arrivedS - madeS);
        if (!Layout.TryRead(frame, _values))
        {
            _noReading++;
            return;
        }

        // A better line may lie a little below; frames stay in order.
        _lastAt = Math.Max(_lastAt, _start + (long)((madeS - _frameS) * _time.TimestampFrequency));
        _frames++;
        _arrived = now;
        _buffer.Add(_lastAt, _clock.HalfWidthS, _values);
    }

    private DeviceFaultKind Silence_NeedsLock() =>
        _finder.Damaged + _noReading > 0 && _frames == 0 ? DeviceFaultKind.Garbled : DeviceFaultKind.Silent;

    private StreamFrame Copy_NeedsLock(long place, double[] values)
    {
        _buffer.Values(place).CopyTo(values);
        (long at, double halfWidthS) = _buffer.When(place);
        return new StreamFrame(null, at, halfWidthS);
    }

    private StreamDelivery Delivery_NeedsLock() => new(
        _frames, _missing, _doubled, _finder.Damaged + _noReading, _restarted, _dropped, _clock.RateHz, _delays.WithinMs(0.99), _delays.WorstMs);
}
