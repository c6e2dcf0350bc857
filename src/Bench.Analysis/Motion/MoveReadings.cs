using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>
/// One move's samples taken apart into columns, in one pass. Filled again for every move, so that a run takes the memory of
/// its longest move however many there are.
/// </summary>
internal sealed class MoveReadings
{
    /// <summary>Volts or amperes beyond which a number is no meter's reading; sums and squares of what is left stay finite.</summary>
    private const double Most = 1e9;

    private double[] _times = [];
    private int[] _places = [];
    private int[] _failedBefore = [];
    private double[] _meterTimes = [];
    private double[] _currents = [];
    private double[] _voltages = [];
    private byte[] _index = [];
    private int _positions;
    private int _rows;
    private int _failed;
    private bool _rising;
    private bool _complete;
    private bool _counts;
    private double _onS;
    private double _offS;
    private double _lastPositionS;
    private double _lastRowS;

    /// <summary>Times of counts read, seconds, each after the one before.</summary>
    public ReadOnlySpan<double> Times => _times.AsSpan(0, _positions);

    /// <summary>The counts, on the ring.</summary>
    public ReadOnlySpan<int> Places => _places.AsSpan(0, _positions);

    /// <summary>Failed attempts between a count and the one before.</summary>
    public ReadOnlySpan<int> FailedBefore => _failedBefore.AsSpan(0, _positions);

    /// <summary>Meters and index; rows with a time, current or voltage that can't be one are left out.</summary>
    public MeterRows Meters => new(
        _meterTimes.AsSpan(0, _rows), _currents.AsSpan(0, _rows), _voltages.AsSpan(0, _rows), _index.AsSpan(0, _rows), _rising);

    /// <summary>Position readings tried while the drive was on.</summary>
    public int AttemptsOn { get; private set; }

    /// <summary>Whether any attempt gave no count.</summary>
    public bool AnyLost { get; private set; }

    /// <summary>Samples there is room for.</summary>
    public int Capacity => _times.Length;

    /// <summary>Whether every count and meter reading is in the columns, in order of time.</summary>
    public bool Plain => _complete && _rising;

    /// <summary>Begins a move.</summary>
    /// <param name="samples">How many samples it has.</param>
    /// <param name="onS">When the drive went on, seconds.</param>
    /// <param name="offS">When it went off.</param>
    /// <param name="counts">Whether the feedback counts; a port's switch says that the unit is at the port, not where.</param>
    public void Begin(int samples, double onS, double offS, bool counts)
    {
        Reserve(samples);
        (_onS, _offS, _counts) = (onS, offS, counts);
        _positions = _rows = _failed = AttemptsOn = 0;
        AnyLost = false;
        _complete = _rising = true;
        _lastPositionS = _lastRowS = double.NegativeInfinity;
    }

    /// <summary>Adds the next samples of the move, in all no more than it has.</summary>
    public void Add(ReadOnlySpan<Sample> samples)
    {
        AddRows(samples);
        AddPositions(samples);
    }

    // Every sample is written where the next row goes, and stays there if it is one: which are is nothing a processor could foresee.
    private void AddRows(ReadOnlySpan<Sample> samples)
    {
        int rows = _rows;
        bool complete = _complete, rising = _rising;
        double last = _lastRowS;
        ref double times = ref MemoryMarshal.GetReference(_meterTimes.AsSpan(rows, samples.Length));
        ref double currents = ref MemoryMarshal.GetReference(_currents.AsSpan(rows, samples.Length));
        ref double voltages = ref MemoryMarshal.GetReference(_voltages.AsSpan(rows, samples.Length));
        ref byte index = ref MemoryMarshal.GetReference(_index.AsSpan(rows, samples.Length));
        int added = 0;
        foreach (ref readonly Sample s in samples)
        {
            double timeS = s.TimeS;
            bool good = double.IsFinite(timeS) & Math.Abs(s.CurrentA) <= Most & Math.Abs(s.VoltageV) <= Most;
            Unsafe.Add(ref times, added) = timeS;
            Unsafe.Add(ref currents, added) = s.CurrentA;
            Unsafe.Add(ref voltages, added) = s.VoltageV;
            Unsafe.Add(ref index, added) = (byte)s.Index;
            complete &= good | !s.HasMeters;
            rising &= !good | timeS >= last;
            last = good ? timeS : last;
            added += good ? 1 : 0;
        }

        (_rows, _complete, _rising, _lastRowS) = (rows + added, complete, rising, last);
    }

    private void AddPositions(ReadOnlySpan<Sample> samples)
    {
        int positions = _positions, failed = _failed, attemptsOn = 0;
        bool complete = _complete, lost = false;
        double last = _lastPositionS, onS = _onS, offS = _offS;
        foreach (ref readonly Sample s in samples)
        {
            if (s.Feedback == FeedbackStatus.NotSampled)
            {
                continue;
            }

            double timeS = s.TimeS;
            lost |= s.Feedback is not FeedbackStatus.Ok;
            attemptsOn += timeS >= onS && timeS <= offS ? 1 : 0;
            if (!s.HasCount || !_counts || !double.IsFinite(timeS))
            {
                complete &= !s.HasCount;
                failed++;
            }
            else if (timeS > last)
            {
                last = timeS;
                _times[positions] = timeS;
                _places[positions] = s.Count;
                _failedBefore[positions++] = failed;
                failed = 0;
            }
            else
            {
                complete = false;
            }
        }

        (_positions, _failed, _complete, _lastPositionS) = (positions, failed, complete, last);
        AnyLost |= lost;
        AttemptsOn += attemptsOn;
    }

    private void Reserve(int samples)
    {
        if (_times.Length < samples)
        {
            _times = new double[samples];
            _places = new int[samples];
            _failedBefore = new int[samples];
            _meterTimes = new double[samples];
            _currents = new double[samples];
            _voltages = new double[samples];
            _index = new byte[samples];
        }
    }
}
