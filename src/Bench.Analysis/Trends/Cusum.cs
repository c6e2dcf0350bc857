namespace Bench.Analysis.Trends;

/// <summary>Tabular cumulative sums for a shift of the mean, up and down (Page 1954; C4).</summary>
/// <param name="Up">S_i = max(0, S_(i-1) + x_i - target - k), one for each value, unit of the values.</param>
/// <param name="Down">S_i = max(0, S_(i-1) + target - k - x_i).</param>
/// <param name="FirstSignal">Place of the first value, from 0, at which a sum exceeds h; null when none does.</param>
/// <param name="Onset">Place of the value with which that sum last left 0: the likeliest begin of the shift; null without a signal.</param>
public sealed record Cusum(IReadOnlyList<double> Up, IReadOnlyList<double> Down, int? FirstSignal, int? Onset)
{
    /// <summary>Reference value in standard deviations: half the shift that is to be found soonest, here one standard deviation.</summary>
    public const double Reference = 0.5;

    /// <summary>Decision value in standard deviations: with <see cref="Reference"/>, one false alarm in 465 values, and a shift of one standard deviation found after 10.4 (see <see cref="CusumRunLength"/>).</summary>
    public const double Decision = 5;

    /// <summary>The sums of values in order of time.</summary>
    /// <param name="values">Finite values.</param>
    /// <param name="target">The mean they should have.</param>
    /// <param name="k">Reference value, unit of the values, not negative.</param>
    /// <param name="h">Decision value, unit of the values, above 0.</param>
    public static Cusum Of(ReadOnlySpan<double> values, double target, double k, double h)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(k);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(h);
        double[] up = new double[values.Length];
        double[] down = new double[values.Length];
        int? signal = null, onset = null;
        int upFrom = 0, downFrom = 0;
        for (int i = 0; i < values.Length; i++)
        {
            up[i] = Math.Max(0, (i == 0 ? 0 : up[i - 1]) + (values[i] - target - k));
            down[i] = Math.Max(0, (i == 0 ? 0 : down[i - 1]) + (target - k - values[i]));
            upFrom = up[i] > 0 ? upFrom : i + 1;
            downFrom = down[i] > 0 ? downFrom : i + 1;
            if (signal is null && Math.Max(up[i], down[i]) > h)
            {
                signal = i;
                onset = up[i] > h ? upFrom : downFrom;
            }
        }

        return new Cusum(up, down, signal, onset);
    }

    /// <summary>Values from the onset of the shift that signalled to where its sum stood highest, [from, to); null without a signal.</summary>
    public (int From, int To)? Rise()
    {
        if (FirstSignal is not int signal || Onset is not int from)
        {
            return null;
        }

        IReadOnlyList<double> sums = Up[signal] > Down[signal] ? Up : Down;
        int highest = signal;
        for (int i = signal; i < sums.Count && sums[i] > 0; i++)
        {
            highest = sums[i] > sums[highest] ? i : highest;
        }

        return (from, highest + 1);
    }
}
