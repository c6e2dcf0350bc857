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
    private bool _rising;

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
    public bool Plain { get; private set; }

    /// <summary>Fills the columns.</summary>
    /// <param name="slice">The move's samples.</param>
    /// <param name="onS">When the drive went on, seconds.</param>
    /// <param name="offS">When it went off.</param>
    /// <param name="counts">Whether the feedback counts; a port's switch says that the unit is at the port, not where.</param>
    public void Fill(ReadOnlySpan<Sample> slice, double onS, double offS, bool counts)
    {
        Reserve(slice.Length);
        int positions = 0, rows = 0, failed = 0, attemptsOn = 0;
        bool plain = true;
        bool lost = false;
        bool rising = true;
        double lastPosition = double.NegativeInfinity;
        double lastRow = double.NegativeInfinity;
        foreach (ref readonly Sample s in slice)
        {
            double timeS = s.TimeS;
            if (s.HasMeters)
            {
                if (double.IsFinite(timeS) && Math.Abs(s.CurrentA) <= Most && Math.Abs(s.VoltageV) <= Most)
                {
                    rising &= timeS >= lastRow;
                    lastRow = timeS;
                    _meterTimes[rows] = timeS;
                    _currents[rows] = s.CurrentA;
                    _voltages[rows] = s.VoltageV;
                    _index[rows++] = (byte)s.Index;
                }
                else
                {
                    plain = false;
                }
            }

            if (s.Feedback == FeedbackStatus.NotSampled)
            {
                continue;
            }

            lost |= s.Feedback is not FeedbackStatus.Ok;
            attemptsOn += timeS >= onS && timeS <= offS ? 1 : 0;
            if (!s.HasCount || !counts || !double.IsFinite(timeS))
            {
                plain &= !s.HasCount;
                failed++;
            }
            else if (timeS > lastPosition)
            {
                lastPosition = timeS;
                _times[positions] = timeS;
                _places[positions] = s.Count;
                _failedBefore[positions++] = failed;
                failed = 0;
            }
            else
            {
                plain = false;
            }
        }

        _positions = positions;
        _rows = rows;
        _rising = rising;
        AnyLost = lost;
        AttemptsOn = attemptsOn;
        Plain = plain && rising;
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
