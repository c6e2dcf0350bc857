using Bench.Model.Rings;

namespace Bench.Running.Sampling;

/// <summary>
/// Follows the position of one move from its readings: unwraps counts (C2) and estimates speed by a line through
/// the latest readings.
/// </summary>
internal sealed class MotionTracker(Ring ring)
{
    /// <summary>Readings the line goes through: about 90 ms, past the quantisation and short of the seats' course.</summary>
    private const int Window = 12;

    private readonly double[] _time = new double[Window];
    private readonly double[] _position = new double[Window];
    private int _count;

    /// <summary>Whether there is a reading.</summary>
    public bool HasReading => _count > 0;

    /// <summary>Counts travelled since the first reading, signed.</summary>
    public double Travelled { get; private set; }

    /// <summary>Time of the last reading, seconds.</summary>
    public double LastS { get; private set; } = double.NaN;

    /// <summary>Time of the last reading that differed by two counts or more from the one motion was last seen at.</summary>
    public double MovedS { get; private set; } = double.NaN;

    /// <summary>Speed, counts per second; 0 before there are readings enough.</summary>
    public double Speed { get; private set; }

    private double _movedAt;
    private int _last;

    /// <summary>Begins anew where the unit stands.</summary>
    public void Reset()
    {
        _count = 0;
        Travelled = 0;
        Speed = 0;
        LastS = double.NaN;
        MovedS = double.NaN;
    }

    /// <summary>Takes a reading.</summary>
    /// <param name="timeS">When it was taken, seconds.</param>
    /// <param name="count">The count, on the ring.</param>
    public void Add(double timeS, int count)
    {
        if (_count == 0)
        {
            _last = count;
            _movedAt = 0;
            MovedS = timeS;
        }
        else
        {
            // Where the unit should be by now at the speed seen, then the turn of the ring nearest to that (C2).
            double expected = Speed * (timeS - LastS);
            double step = ring.Difference(count - expected, _last) + expected;
            Travelled += Math.Round(step);
            _last = count;
            if (Math.Abs(Travelled - _movedAt) >= 2)
            {
                _movedAt = Travelled;
                MovedS = timeS;
            }
        }

        LastS = timeS;
        _time[_count % Window] = timeS;
        _position[_count % Window] = Travelled;
        _count++;
        Speed = Slope(out _);
    }

    /// <summary>Counts travelled at a time near the last reading, along the line through the latest readings.</summary>
    public double TravelledAt(double timeS)
    {
        if (_count < Window)
        {
            return Travelled + (Speed * (timeS - LastS));
        }

        double slope = Slope(out (double Time, double Position) middle);
        return middle.Position + (slope * (timeS - middle.Time));
    }

    private double Slope(out (double Time, double Position) middle)
    {
        int n = Math.Min(_count, Window);
        double mt = 0;
        double mp = 0;
        for (int i = 0; i < n; i++)
        {
            mt += _time[i];
            mp += _position[i];
        }

        middle = (mt / n, mp / n);
        double stt = 0;
        double stp = 0;
        for (int i = 0; i < n; i++)
        {
            double dt = _time[i] - middle.Time;
            stt += dt * dt;
            stp += dt * (_position[i] - middle.Position);
        }

        return n >= 3 && stt > 0 ? stp / stt : 0;
    }
}
