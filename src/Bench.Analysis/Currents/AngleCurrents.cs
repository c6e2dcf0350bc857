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
    private readonly double[] _sum;
    private readonly double[] _squares;
    private readonly int[] _samples;

    /// <summary>Begins empty.</summary>
    public AngleCurrents(Ring ring)
    {
        _ring = ring;
        int bins = Math.Min(MostBins, ring.Counts);
        _sum = new double[bins];
        _squares = new double[bins];
        _samples = new int[bins];
    }

    /// <summary>Counts per bin.</summary>
    public double BinCounts => _ring.Counts / (double)_sum.Length;

    /// <summary>Number of bins.</summary>
    public int Bins => _sum.Length;

    /// <summary>Adds the steady part of a move.</summary>
    public void Add(MoveCourse course, MeterRows steady)
    {
        if (!course.HasSteady)
        {
            return;
        }

        ReadOnlySpan<double> times = course.Times[..(course.SteadyLast + 1)];
        ReadOnlySpan<double> rows = steady.Times;
        double binCounts = BinCounts;
        int after = course.SteadyFirst + 1;
        for (int i = 0; i < rows.Length;)
        {
            double timeS = rows[i];
            if (timeS < course.SteadyFromS || timeS > course.SteadyToS)
            {
                i++;
                continue;
            }

            // The readings before and after the row, and the rows up to the one after.
            after = timeS < times[after - 1] ? Math.Max(Rising.FirstFrom(times, timeS), course.SteadyFirst + 1) : after;
            while (times[after] < timeS)
            {
                after++;
            }

            double t0 = times[after - 1], t1 = times[after], c0 = course.Counts[after - 1], c1 = course.Counts[after];
            int end = i + 1;
            while (end < rows.Length && rows[end] <= t1 && rows[end] >= t0)
            {
                end++;
            }

            int from = _ring.Place((long)c0);
            int to = _ring.Place((long)c1);
            int bin = Bin(from, binCounts);
            if (Math.Abs(c1 - c0) == Math.Abs(to - from) && Bin(to, binCounts) == bin)
            {
                Add(bin, steady.Currents[i..end]);
            }
            else
            {
                for (int k = i; k < end; k++)
                {
                    double at = c0 + ((c1 - c0) * (rows[k] - t0) / (t1 - t0));
                    Add(Bin(_ring.Place(at), binCounts), steady.Currents.Slice(k, 1));
                }
            }

            i = end;
        }
    }

    private int Bin(double place, double binCounts) => Math.Min((int)(place / binCounts), _sum.Length - 1);

    private void Add(int bin, ReadOnlySpan<double> currents)
    {
        double sum = _sum[bin], squares = _squares[bin];
        foreach (double current in currents)
        {
            sum += current;
            squares += current * current;
        }

        _sum[bin] = sum;
        _squares[bin] = squares;
        _samples[bin] += currents.Length;
    }

    /// <summary>Mean, its standard uncertainty from scatter, and samples over bins in a row, wrapping; null below <paramref name="leastSamples"/>.</summary>
    public (double Mean, double Uncertainty, int Samples)? Over(int firstBin, int bins, int leastSamples)
    {
        double sum = 0, squares = 0;
        int n = 0;
        for (int k = 0; k < bins; k++)
        {
            int bin = (firstBin + k) % Bins;
            sum += _sum[bin];
            squares += _squares[bin];
            n += _samples[bin];
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
        MeanA = [.. _sum.Select((s, i) => _samples[i] > 0 ? s / _samples[i] : (double?)null)],
        Samples = [.. _samples],
    };
}
