using Bench.Analysis.Motion;
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
    public void Add(MoveCourse course, MeterRow[] steady)
    {
        foreach (MeterRow row in steady)
        {
            if (course.Between(row.TimeS) is double at)
            {
                int bin = Math.Min((int)(_ring.Place(at) / BinCounts), _sum.Length - 1);
                _sum[bin] += row.CurrentA;
                _squares[bin] += row.CurrentA * row.CurrentA;
                _samples[bin]++;
            }
        }
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
