namespace Bench.Devices.Streams;

/// <summary>How late frames were delivered, against the least delayed: counted in steps, so that a day's stream takes no more room than a second's.</summary>
internal sealed class DelayTally
{
    private const double StepMs = 0.1;

    private readonly long[] _counts = new long[2000];
    private long _total;

    /// <summary>The greatest delay, milliseconds; null without a frame.</summary>
    public double? WorstMs { get; private set; }

    /// <summary>Takes one.</summary>
    public void Add(double delayS)
    {
        double ms = 1000 * Math.Max(0, delayS);
        WorstMs = Math.Max(WorstMs ?? 0, ms);
        _counts[(int)Math.Min(ms / StepMs, _counts.Length - 1)]++;
        _total++;
    }

    /// <summary>The delay that a share of all stays within, rounded up to a step; null without a frame.</summary>
    public double? WithinMs(double share)
    {
        long wanted = (long)Math.Ceiling(share * _total);
        long passed = 0;
        for (int i = 0; i < _counts.Length; i++)
        {
            passed += _counts[i];
            if (passed >= wanted && passed > 0)
            {
                return Math.Min((i + 1) * StepMs, WorstMs!.Value);
            }
        }

        return null;
    }
}
