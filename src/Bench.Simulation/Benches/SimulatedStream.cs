using Bench.Devices.Links;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>A device that pushes frames at its rate for as long as its link is open, whether it can be heard or not: its counter goes on.</summary>
internal sealed class SimulatedStream
{
    /// <summary>Frames handed over at once at most, where a timer came late in real time.</summary>
    private const int MostAtOnce = 64;

    private readonly StreamDescription _stream;
    private readonly FrameLayout _layout;
    private readonly Func<double>[] _fields;
    private readonly double[] _values;

    internal SimulatedStream(StreamDescription stream)
    {
        _stream = stream;
        _layout = new FrameLayout(stream);
        _fields = [.. stream.Fields.Select(_ => new Func<double>(() => 0))];
        _values = new double[_fields.Length];
    }

    /// <summary>Gives a field its number.</summary>
    internal void Sends(string field, Func<double> value) => _fields[_layout.IndexOf(field)] = value;

    /// <summary>Pushes frames until the link closes.</summary>
    /// <param name="over">The device's end.</param>
    /// <param name="time">Clock.</param>
    /// <param name="atPresent">Runs work with the bench brought to the present.</param>
    /// <param name="canBeHeard">Whether frames leave it.</param>
    /// <param name="cancel">Ends it.</param>
    /// <exception cref="IOException">The link is gone.</exception>
    internal async Task RunAsync(ILink over, TimeProvider time, Action<Action> atPresent, Func<bool> canBeHeard, CancellationToken cancel)
    {
        TimeSpan period = TimeSpan.FromSeconds(1 / _stream.RateHz);
        long start = time.GetTimestamp();
        byte[] frame = new byte[_layout.Length];
        using SemaphoreSlim due = new(0);
        await using ITimer timer = time.CreateTimer(_ => due.Release(), null, period, period);
        for (long sent = 0; ;)
        {
            await due.WaitAsync(cancel);
            long owed = (long)Math.Floor((time.GetElapsedTime(start).TotalSeconds * _stream.RateHz) + 1e-6) - sent;
            sent += Math.Max(0, owed - MostAtOnce);
            for (long i = Math.Min(owed, MostAtOnce); i > 0; i--)
            {
                atPresent(() => Fill(unchecked((uint)sent), frame));
                sent++;
                if (canBeHeard())
                {
                    await over.WriteAsync(frame, cancel);
                }
            }
        }
    }

    private void Fill(uint sequence, byte[] frame)
    {
        for (int i = 0; i < _fields.Length; i++)
        {
            _values[i] = _fields[i]();
        }

        _layout.Write(sequence, _values, frame);
    }
}
