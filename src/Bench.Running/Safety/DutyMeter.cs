namespace Bench.Running.Safety;

/// <summary>
/// Share of a sliding window that a drive has been on (S7): a gearmotor made for short moves overheats when it turns
/// or stalls without rest.
/// </summary>
internal sealed class DutyMeter(double windowS, double mostDuty)
{
    private readonly Queue<(double On, double Off)> _spans = new();
    private double _onSince = double.NaN;

    /// <summary>The drive went on at a time, in seconds.</summary>
    public void On(double nowS) => _onSince = nowS;

    /// <summary>The drive went off at a time, in seconds.</summary>
    public void Off(double nowS)
    {
        if (!double.IsNaN(_onSince))
        {
            _spans.Enqueue((_onSince, nowS));
            _onSince = double.NaN;
        }
    }

    /// <summary>
    /// Rest, in seconds, needed from <paramref name="nowS"/> before the drive may be on for <paramref name="onS"/>
    /// more without exceeding the duty in the window that ends with it. The drive must be off.
    /// </summary>
    public double RestBefore(double nowS, double onS)
    {
        double allowed = mostDuty * windowS;
        if (onS > allowed)
        {
            return double.PositiveInfinity;
        }

        while (_spans.TryPeek(out (double On, double Off) oldest) && oldest.Off < nowS - windowS)
        {
            _spans.Dequeue();
        }

        double rest = 0;
        double used = OnWithin(nowS + onS - windowS) + onS;
        foreach ((double on, double off) in _spans)
        {
            if (used <= allowed)
            {
                break;
            }

            // The window's start must move past as much of this span as is too much.
            double begin = Math.Max(on, nowS + rest + onS - windowS);
            double drop = Math.Min(off - begin, used - allowed);
            if (drop > 0)
            {
                rest = begin + drop - (nowS + onS - windowS);
                used -= drop;
            }
        }

        return rest;
    }

    private double OnWithin(double fromS)
    {
        double sum = 0;
        foreach ((double on, double off) in _spans)
        {
            sum += Math.Max(0, off - Math.Max(on, fromS));
        }

        return sum;
    }
}
