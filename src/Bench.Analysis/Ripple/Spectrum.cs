using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace Bench.Analysis.Ripple;

/// <summary>Power spectrum of one block of evenly sampled values (C8).</summary>
public static class Spectrum
{
    /// <summary>
    /// One-sided power spectral density, mean removed, Hann window (periodic): |X|²/(f_s Σw²), doubled but for 0 and half the
    /// rate. Bin k lies at k·rate/n.
    /// </summary>
    /// <param name="values">At least 2 values, all finite.</param>
    /// <param name="rateHz">Samples a second, above 0.</param>
    /// <exception cref="ArgumentException">There are fewer than 2 values.</exception>
    public static double[] Density(ReadOnlySpan<double> values, double rateHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rateHz);
        int n = values.Length;
        if (n < 2)
        {
            throw new ArgumentException("a spectrum needs two values at least", nameof(values));
        }

        double mean = Statistics.Describe.Mean(values);
        Complex[] windowed = new Complex[n];
        double squares = 0;
        for (int i = 0; i < n; i++)
        {
            double window = 0.5 - (0.5 * Math.Cos(2 * Math.PI * i / n));
            squares += window * window;
            windowed[i] = (values[i] - mean) * window;
        }

        Fourier.Forward(windowed, FourierOptions.NoScaling);
        double[] density = new double[(n / 2) + 1];
        for (int k = 0; k < density.Length; k++)
        {
            double sides = k == 0 || 2 * k == n ? 1 : 2;
            double size = windowed[k].Magnitude;
            density[k] = sides * size * size / (rateHz * squares);
        }

        return density;
    }

    /// <summary>Frequency of the strongest line in a band, or null where none stands out.</summary>
    /// <param name="density">Of <see cref="Density"/>.</param>
    /// <param name="binHz">Distance of bins, hertz.</param>
    /// <param name="fromHz">Least frequency looked at.</param>
    /// <param name="toHz">Greatest.</param>
    /// <param name="leastRatio">Power of the line over the band's median from which it stands out.</param>
    /// <remarks>
    /// Between bins by the ratio r of the greater neighbour's amplitude to the peak's: (2r - 1)/(1 + r), exact for one line
    /// under a Hann window (Grandke 1983, from memory).
    /// </remarks>
    public static double? Line(ReadOnlySpan<double> density, double binHz, double fromHz, double toHz, double leastRatio)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(binHz);
        int first = Math.Max(1, (int)Math.Ceiling(fromHz / binHz));
        int last = Math.Min(density.Length - 2, (int)Math.Floor(toHz / binHz));
        if (last - first < 4)
        {
            return null;
        }

        int peak = first;
        for (int k = first; k <= last; k++)
        {
            peak = density[k] > density[peak] ? k : peak;
        }

        // A line that goes on rising past the edge is one outside the band.
        if (peak == first || peak == last || density[peak] < leastRatio * Statistics.Robust.Median(density[first..(last + 1)]))
        {
            return null;
        }

        int side = density[peak + 1] > density[peak - 1] ? 1 : -1;
        double r = Math.Sqrt(density[peak + side] / density[peak]);
        return (peak + (side * ((2 * r) - 1) / (1 + r))) * binHz;
    }
}
