namespace Bench.Devices.Streams;

/// <summary>
/// Maps a device's clock, its frames' numbers, to the host's. Every frame is delivered late, never early, so the line of true
/// times lies below all arrivals and touches those that were least delayed: the edge of their lower convex hull over the middle
/// of the stretch, which minimises the sum of the delays (the offline method of Moon, Skelly and Towsley, INFOCOM 1999; from memory).
/// It is blind to frames that are handed on in batches, as a mean would not be.
/// </summary>
/// <remarks>
/// The line goes through the least delayed frames of blocks of a quarter second, the latest <see cref="Blocks"/> of them, so that a clock
/// that wanders with temperature is followed. The least delay itself cannot be seen; what is known of it, the frame's time on the
/// wire, the caller takes off.
/// </remarks>
internal sealed class StreamClock
{
    private const int Blocks = 16;
    private const double BlockS = 0.25;

    private readonly double _nominalS;
    private readonly long _blockFrames;
    private readonly double[] _number = new double[Blocks];
    private readonly double[] _arrivalS = new double[Blocks];
    private int _count;
    private long _blockEnds = -1;
    private double _bestNumber;
    private double _bestS;
    private double _slopeS;
    private double _originNumber;
    private double _originS;

    public StreamClock(double rateHz)
    {
        _nominalS = 1 / rateHz;
        _slopeS = _nominalS;
        _blockFrames = Math.Max(4, (long)Math.Round(BlockS * rateHz));
    }

    /// <summary>How far the least delayed frames lie above the line, at most; half of a frame's period is added, in which the device took its reading. Seconds.</summary>
    public double HalfWidthS { get; private set; }

    /// <summary>Frames per second as the host's clock sees them; null before two blocks have passed.</summary>
    public double? RateHz => _count >= 2 ? 1 / _slopeS : null;

    /// <summary>Begins anew: the device's counter did.</summary>
    public void Reset() => (_count, _blockEnds, _slopeS) = (0, -1, _nominalS);

    /// <summary>Takes a frame, and says when it was made but for the least delay.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="arrivedS">When it arrived, seconds.</param>
    public double Take(long number, double arrivedS)
    {
        if (_blockEnds < 0)
        {
            (_originNumber, _originS) = (number, arrivedS);
            Begin(number, arrivedS);
        }
        else if (number >= _blockEnds)
        {
            Keep();
            Fit();
            Begin(number, arrivedS);
        }
        else if (Above(number, arrivedS) < Above(_bestNumber, _bestS))
        {
            (_bestNumber, _bestS) = (number, arrivedS);
        }

        // Below the line: this frame was less delayed than any before it.
        if (Above(number, arrivedS) is var above and < 0)
        {
            _originS += above;
        }

        HalfWidthS = Math.Max(_nominalS / 2, WorstAbove() + (_nominalS / 2));
        return Line(number);
    }

    private double Line(double number) => _originS + ((number - _originNumber) * _slopeS);

    private double Above(double number, double arrivedS) => arrivedS - Line(number);

    private void Begin(long number, double arrivedS) => (_blockEnds, _bestNumber, _bestS) = (number + _blockFrames, number, arrivedS);

    private void Keep()
    {
        if (_count == Blocks)
        {
            _number.AsSpan(1).CopyTo(_number);
            _arrivalS.AsSpan(1).CopyTo(_arrivalS);
            _count--;
        }

        (_number[_count], _arrivalS[_count]) = (_bestNumber, _bestS);
        _count++;
    }

    // Sixteen points, four times a second: every pair is tried whether all others lie above its line, the pair around the middle is the one.
    private void Fit()
    {
        if (_count < 2)
        {
            return;
        }

        double middle = 0;
        for (int i = 0; i < _count; i++)
        {
            middle += _number[i] / _count;
        }

        for (int i = 0; i < _count - 1; i++)
        {
            for (int j = i + 1; j < _count; j++)
            {
                if (_number[i] <= middle && _number[j] >= middle && IsEdge(i, j))
                {
                    _slopeS = (_arrivalS[j] - _arrivalS[i]) / (_number[j] - _number[i]);
                    (_originNumber, _originS) = (_number[i], _arrivalS[i]);
                    return;
                }
            }
        }
    }

    private bool IsEdge(int i, int j)
    {
        double slope = (_arrivalS[j] - _arrivalS[i]) / (_number[j] - _number[i]);
        for (int k = 0; k < _count; k++)
        {
            // A picosecond for the arithmetic.
            if (_arrivalS[k] < _arrivalS[i] + ((_number[k] - _number[i]) * slope) - 1e-12)
            {
                return false;
            }
        }

        return true;
    }

    private double WorstAbove()
    {
        double worst = 0;
        for (int i = 0; i < _count; i++)
        {
            worst = Math.Max(worst, Above(_number[i], _arrivalS[i]));
        }

        return worst;
    }
}
