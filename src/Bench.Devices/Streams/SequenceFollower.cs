namespace Bench.Devices.Streams;

/// <summary>Numbers frames by their counter, which wraps, and says which are missing. The host's clock decides how often it wrapped.</summary>
internal sealed class SequenceFollower(int bits, double rateHz)
{
    /// <summary>Delivery may gather this much: adapters hand on what came in 16 ms, hosts are some tens of milliseconds late (common practice, no source).</summary>
    private const double MostGatheredS = 0.1;

    private readonly long _range = 1L << bits;
    private uint _last;
    private double _lastS;
    private bool _begun;

    /// <summary>Number of the latest frame, from 0; lost ones count.</summary>
    public long Number { get; private set; }

    /// <summary>Takes the counter of a frame.</summary>
    /// <param name="counter">The counter.</param>
    /// <param name="arrivedS">When it arrived, seconds.</param>
    /// <returns>How far it is behind the frame before: 1 for the next, 0 for the same again, more where some are missing, -1 where the counter has begun anew.</returns>
    public long Take(uint counter, double arrivedS)
    {
        if (!_begun)
        {
            (_begun, _last, _lastS) = (true, counter, arrivedS);
            return 1;
        }

        long step = (counter - (long)_last + _range) % _range;
        double passed = (arrivedS - _lastS) * rateHz;
        double slack = MostGatheredS * rateHz;

        // As many turns of the counter as bring it nearest to what time allows.
        long turns = Math.Max(0, (long)Math.Round((passed - step) / _range));
        step += turns * _range;
        (_last, _lastS) = (counter, arrivedS);
        if (step > passed + slack + 1 && turns == 0 && step > 1)
        {
            Number++;
            return -1;
        }

        Number += step;
        return step;
    }
}
