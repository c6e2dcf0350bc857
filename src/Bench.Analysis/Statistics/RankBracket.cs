using System.Buffers;

namespace Bench.Analysis.Statistics;

/// <summary>
/// Two values between which a rank most probably lies (Floyd and Rivest 1975). Values are added block by block; what lies below
/// is counted, what lies inside is kept, and so the rank is found exactly or not at all.
/// </summary>
internal sealed class RankBracket : IDisposable
{
    private const int LeastSample = 64;
    private const int MostSample = 1024;

    /// <summary>Half width of the bracket in standard deviations of the sample's rank.</summary>
    private const double Sigmas = 2.6;

    private readonly double _low = double.NegativeInfinity;
    private readonly double _high = double.PositiveInfinity;
    private double[] _kept = [];
    private int _inside;
    private int _atMostLow;
    private int _lows;
    private int _highs;

    /// <summary>Brackets a rank.</summary>
    /// <param name="sample">Some of the values, from all over them.</param>
    /// <param name="rank">The rank, from 0.</param>
    /// <param name="count">How many values there are.</param>
    public RankBracket(ReadOnlySpan<double> sample, int rank, int count)
    {
        double share = (rank + 0.5) / count;
        double half = (Sigmas * Math.Sqrt(sample.Length * share * (1 - share))) + 1;
        if ((int)Math.Floor((share * sample.Length) - half) is >= 0 and int low)
        {
            _low = OrderStatistics.At(sample, low);
        }

        if ((int)Math.Ceiling((share * sample.Length) + half) is int high && high < sample.Length)
        {
            _high = OrderStatistics.At(sample, high);
        }
    }

    /// <summary>Values that bracket a rank among so many.</summary>
    public static int SampleSize(int count) => Math.Clamp(count / 32, LeastSample, MostSample);

    /// <summary>Values kept, strictly inside.</summary>
    public ReadOnlySpan<double> Kept => _kept.AsSpan(0, _inside);

    /// <summary>Adds a block: counts the values up to the low end and keeps those strictly inside.</summary>
    public void Add(ReadOnlySpan<double> values)
    {
        Reserve(values.Length);
        (int atMostLow, int kept) = Sieve.Between(values, _low, _high, _kept.AsSpan(_inside));
        _atMostLow += atMostLow;
        _inside += kept;
    }

    /// <summary>
    /// Counts the values of a block that equal an end. A meter's resolution and a stream's period make many values equal; then
    /// an end may be what is looked for.
    /// </summary>
    public void AddEnds(ReadOnlySpan<double> values)
    {
        (int lows, int highs) = Sieve.Equal(values, _low, _high);
        _lows += lows;
        _highs += highs;
    }

    /// <summary>The value of a rank; null where it lies outside. At the ends, once their values were counted.</summary>
    public double? At(int rank)
    {
        int place = rank - _atMostLow;
        return place < 0 ? (place >= -_lows ? _low : null)
            : place < _inside ? OrderStatistics.At(Kept, place)
            : place < _inside + _highs ? _high : null;
    }

    /// <summary>The values of two ranks; null where either lies outside.</summary>
    public (double Lower, double Upper)? At(int lower, int upper) =>
        At(upper) is not double greater ? null
            : lower == upper ? (greater, greater)
            : At(lower) is double less ? (less, greater) : null;

    /// <summary>Gives the room back; the values kept are gone.</summary>
    public void Dispose()
    {
        ArrayPool<double>.Shared.Return(_kept);
        (_kept, _inside) = ([], 0);
    }

    private void Reserve(int more)
    {
        int needed = _inside + more + Sieve.Spare;
        if (_kept.Length < needed)
        {
            double[] larger = ArrayPool<double>.Shared.Rent(Math.Max(needed, 2 * _kept.Length));
            Kept.CopyTo(larger);
            ArrayPool<double>.Shared.Return(_kept);
            _kept = larger;
        }
    }
}
