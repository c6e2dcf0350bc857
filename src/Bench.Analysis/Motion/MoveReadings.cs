using System.Numerics;
using Bench.Analysis.Readings;
using Bench.Analysis.Statistics;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>
/// One move's samples taken apart into columns, in one pass. Filled again for every move, so that a run takes the memory of
/// its longest move however many there are.
/// </summary>
internal sealed class MoveReadings
{
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
        while (!samples.IsEmpty)
        {
            ReadOnlySpan<Sample> block = samples[..Math.Min(SampleMarks.Most, samples.Length)];
            Add(block, new SampleMarks(block));
            samples = samples[block.Length..];
        }
    }

    /// <summary>The same of a block whose marks are known.</summary>
    public void Add(ReadOnlySpan<Sample> block, in SampleMarks marks)
    {
        AddRows(block);
        AddPositions(block, marks);
    }

    private void AddRows(ReadOnlySpan<Sample> samples)
    {
        int rows = _rows, room = samples.Length + RowColumns.Spare;
        (int added, bool complete) = RowColumns.Take(
            samples, _meterTimes.AsSpan(rows, room), _currents.AsSpan(rows, room), _voltages.AsSpan(rows, room), _index.AsSpan(rows, room));
        ReadOnlySpan<double> times = _meterTimes.AsSpan(rows, added);
        _complete &= complete;
        _rising = _rising && (added == 0 || (times[0] >= _lastRowS && Rising.IsRising(times)));
        _lastRowS = added == 0 ? _lastRowS : times[^1];
        _rows += added;
    }

    private void AddPositions(ReadOnlySpan<Sample> block, in SampleMarks marks)
    {
        int positions = _positions, failed = _failed, attemptsOn = 0;
        bool complete = _complete;
        double last = _lastPositionS, onS = _onS, offS = _offS;
        for (int word = 0; word < marks.Tried.Length; word++)
        {
            for (ulong tried = marks.Tried[word]; tried != 0; tried &= tried - 1)
            {
                ref readonly Sample s = ref block[(64 * word) + BitOperations.TrailingZeroCount(tried)];
                double timeS = s.TimeS;
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
        }

        (_positions, _failed, _complete, _lastPositionS) = (positions, failed, complete, last);
        AnyLost |= marks.AnyLost;
        AttemptsOn += attemptsOn;
    }

    private void Reserve(int samples)
    {
        if (_times.Length < samples)
        {
            _times = new double[samples];
            _places = new int[samples];
            _failedBefore = new int[samples];
            _meterTimes = new double[samples + RowColumns.Spare];
            _currents = new double[samples + RowColumns.Spare];
            _voltages = new double[samples + RowColumns.Spare];
            _index = new byte[samples + RowColumns.Spare];
        }
    }
}
