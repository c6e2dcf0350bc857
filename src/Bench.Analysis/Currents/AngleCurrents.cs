using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Rings;

namespace Bench.Analysis.Currents;

/// <summary>Current by angle, gathered over all revolutions of steady motion (C7).</summary>
internal sealed class AngleCurrents
{
    /// <summary>Bins round the ring: a few samples per bin and revolution at the usual rates.</summary>
    private const int MostBins = 80;

    private readonly Ring _ring;
    private readonly Gathered[] _bins;
    private readonly double _first;

    /// <summary>The bin of each place.</summary>
    private readonly byte[] _binOf;

    /// <summary>Begin of the turn of the ring on which the last count lay.</summary>
    private double _turn;

    /// <summary>Begins empty.</summary>
    /// <param name="ring">The ring.</param>
    /// <param name="fromCount">A place of the ring that bins are counted from, so that they lie alike wherever its zero is.</param>
    public AngleCurrents(Ring ring, int fromCount)
    {
        _ring = ring;
        _bins = new Gathered[Math.Min(MostBins, ring.Counts)];
        _first = fromCount % BinCounts;
        _binOf = [.. Enumerable.Range(0, ring.Counts).Select(BinOf)];
    }

    /// <summary>Counts per bin.</summary>
    public double BinCounts => _ring.Counts / (double)_bins.Length;

    /// <summary>Count at which the first bin begins, less than <see cref="BinCounts"/>.</summary>
    public double FirstCount => _first;

    /// <summary>Number of bins.</summary>
    public int Bins => _bins.Length;

    /// <summary>Adds the steady part of a move.</summary>
    public void Add(MoveCourse course, MeterRows steady)
    {
        if (!course.HasSteady)
        {
            return;
        }

        ReadOnlySpan<double> times = course.Times[..(course.SteadyLast + 1)];
        ReadOnlySpan<double> rows = steady.Times;
        ReadOnlySpan<double> currents = steady.Currents;
        ReadOnlySpan<double> counts = course.Counts;
        double binCounts = BinCounts;
        double n = _ring.Counts;
        double turn = 0;
        double fromS = course.SteadyFromS;
        double toS = course.SteadyToS;
        int after = course.SteadyFirst + 1;
        for (int i = 0; i < rows.Length;)
        {
            double timeS = rows[i];
            if (timeS < fromS || timeS > toS)
            {
                i++;
                continue;
            }

            // The readings before and after the row.
            after = timeS < times[after - 1] ? Math.Max(Rising.FirstFrom(times, timeS), course.SteadyFirst + 1) : after;
            while (times[after] < timeS)
            {
                after++;
            }

            bool more = i + 1 < rows.Length && rows[i + 1] <= times[after] && rows[i + 1] >= timeS;
            if (more && Arc(counts[after - 1], counts[after]) is >= 0 and int whole)
            {
                // A stream gives many rows while the unit crosses a bin.
                while (after < course.SteadyLast && StaysIn(whole, counts[after], counts[after + 1]))
                {
                    after++;
                }

                int last = steady.LastInOrder(i + 1, times[after]);
                Add(whole, currents[i..(last + 1)]);
                i = last + 1;
                continue;
            }

            int end = more ? steady.LastInOrder(i + 1, times[after]) + 1 : i + 1;
            double t0 = times[after - 1], c0 = counts[after - 1] - _first, per = counts[after] - counts[after - 1], span = times[after] - t0;
            for (; i < end; i++)
            {
                double at = c0 + (per * (rows[i] - t0) / span);
                double place = at - turn;
                if (!(place >= 0 && place < n))
                {
                    turn = n * Math.Floor(at / n);
                    place = _ring.Place(at);
                }

                double current = currents[i];
                ref Gathered bin = ref _bins[Math.Min(double.ConvertToIntegerNative<int>(place / binCounts), _bins.Length - 1)];
                bin.Sum += current;
                bin.Squares += current * current;
                bin.Samples++;
            }
        }
    }

    // The bin in which the whole arc between two counts lies; -1 where it lies in more than one.
    private int Arc(double from, double to)
    {
        int bin = Bin(from);
        return StaysIn(bin, from, to) ? bin : -1;
    }

    private bool StaysIn(int bin, double from, double to) => Math.Abs(to - from) < BinCounts && Bin(to) == bin;

    // Of a whole count, which may lie anywhere.
    private int Bin(double count)
    {
        double place = count - _turn;
        if (!(place >= 0 && place < _binOf.Length))
        {
            // Native conversions, for a checked one is a call.
            place = _ring.Place(double.ConvertToIntegerNative<long>(count));
            _turn = count - place;
        }

        return _binOf[double.ConvertToIntegerNative<int>(place)];
    }

    private byte BinOf(int place)
    {
        double along = place - _first;
        return (byte)Math.Min(unchecked((int)((along < 0 ? along + _ring.Counts : along) / BinCounts)), _bins.Length - 1);
    }

    private void Add(int bin, ReadOnlySpan<double> currents)
    {
        (double sum, double squares) = Describe.Sums(currents, 0);
        _bins[bin].Sum += sum;
        _bins[bin].Squares += squares;
        _bins[bin].Samples += currents.Length;
    }

    /// <summary>Mean, its standard uncertainty from scatter, and samples over bins in a row, wrapping; null below <paramref name="leastSamples"/>.</summary>
    public (double Mean, double Uncertainty, int Samples)? Over(int firstBin, int bins, int leastSamples)
    {
        double sum = 0, squares = 0;
        int n = 0;
        for (int k = 0; k < bins; k++)
        {
            int bin = (firstBin + k) % Bins;
            sum += _bins[bin].Sum;
            squares += _bins[bin].Squares;
            n += _bins[bin].Samples;
        }

        if (n < Math.Max(leastSamples, 2))
        {
            return null;
        }

        double variance = Math.Max(0, (squares - (sum * sum / n)) / (n - 1));
        return (sum / n, Math.Sqrt(variance / n), n);
    }

    /// <summary>The profile by angle.</summary>
    public AngleProfile Profile() => new()
    {
        BinCounts = BinCounts,
        FirstCount = FirstCount,
        MeanA = [.. _bins.Select(b => b.Samples > 0 ? b.Sum / b.Samples : (double?)null)],
        Samples = [.. _bins.Select(b => b.Samples)],
    };

    private struct Gathered
    {
        public double Sum;
        public double Squares;
        public int Samples;
    }
}
