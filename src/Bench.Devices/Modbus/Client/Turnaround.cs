namespace Bench.Devices.Modbus.Client;

/// <summary>Follows a device's turnaround, by median and quartiles of its latest answers. Allocates nothing per answer.</summary>
internal sealed class Turnaround
{
    /// <summary>Answers looked back on: half a second at the rates of a serial bus.</summary>
    public const int Window = 63;

    /// <summary>Answers before anything is called usual.</summary>
    public const int Least = 16;

    /// <summary>Spreads above the median that are still usual; a normal distribution has 0.1 % beyond.</summary>
    private const int UsualSpreads = 3;

    private const double InterquartileRangeOfNormal = 1.349;

    private readonly long[] _arrival = new long[Window];
    private readonly long[] _sorted = new long[Window];
    private int _count;
    private int _oldest;

    /// <summary>The figures.</summary>
    public TurnaroundStatistics Statistics => _count == 0
        ? default
        : new(_count, TimeSpan.FromTicks(_sorted[_count / 2]), TimeSpan.FromTicks((long)(QuartileRange / InterquartileRangeOfNormal)));

    /// <summary>Longest turnaround that is nothing unusual; unlimited while too few are known.</summary>
    public TimeSpan Usual => _count < Least
        ? TimeSpan.MaxValue
        : TimeSpan.FromTicks(_sorted[_count / 2] + (long)(UsualSpreads * QuartileRange / InterquartileRangeOfNormal));

    private long QuartileRange => _sorted[3 * _count / 4] - _sorted[_count / 4];

    /// <summary>Takes a turnaround.</summary>
    public void Add(TimeSpan turnaround)
    {
        if (_count == Window)
        {
            int gone = Array.BinarySearch(_sorted, 0, _count, _arrival[_oldest]);
            _sorted.AsSpan(gone + 1, _count - gone - 1).CopyTo(_sorted.AsSpan(gone));
            _count--;
        }

        _arrival[_oldest] = turnaround.Ticks;
        _oldest = (_oldest + 1) % Window;
        int place = Array.BinarySearch(_sorted, 0, _count, turnaround.Ticks);
        place = place < 0 ? ~place : place;
        _sorted.AsSpan(place, _count - place).CopyTo(_sorted.AsSpan(place + 1));
        _sorted[place] = turnaround.Ticks;
        _count++;
    }
}
