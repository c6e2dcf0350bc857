using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Running.Safety;

/// <summary>
/// Looks for a unit that is driven although its drive reads back off. Read-back shows a relay's coil, not its contact: a
/// welded contact, or a wire past the relay, shows only by the current it lets through and by a count that moves on.
/// </summary>
internal sealed class RestWatch(Ring ring, double mostCurrentA)
{
    /// <summary>
    /// Time after the off command before anything counts, seconds: a relay releases in milliseconds and a shorted motor
    /// stops in some tens (common practice, no source).
    /// </summary>
    public const double CoastS = 0.15;

    /// <summary>Readings in a row that must agree: one may be noise on the meter's wires.</summary>
    private const int Readings = 2;

    /// <summary>Movement of the count that no rest explains, as a share of the ring, and in counts.</summary>
    private const double MovedShare = 0.02;
    private const double LeastMovedCounts = 5;

    private double _offS = double.NegativeInfinity;
    private int _above;
    private int _atRest;
    private int? _restingAt;

    /// <summary>A watch for a family: current above half the bare motor's, or above what the profile allows with the drive off.</summary>
    public static RestWatch For(Profile profile)
    {
        double? allowed = profile.Limits.FirstOrDefault(l => l.Feature == "current.off_a")?.Upper;
        return new RestWatch(profile.Ring, Math.Max(profile.Electrical.NoLoadCurrentA / 2, allowed ?? 0));
    }

    /// <summary>Whether a drive was ever commanded off: before, there is nothing to watch.</summary>
    public bool Began => !double.IsNegativeInfinity(_offS);

    /// <summary>Whether enough readings since off and coast have shown no current.</summary>
    public bool Seen => _atRest >= Readings;

    /// <summary>The drive was commanded off at a time, in seconds.</summary>
    public void Off(double nowS)
    {
        _offS = nowS;
        _above = 0;
        _atRest = 0;
        _restingAt = null;
    }

    /// <summary>Takes a current reading.</summary>
    /// <returns>What it shows, in plain words; null for rest.</returns>
    public string? Current(double timeS, double currentA)
    {
        if (timeS - _offS < CoastS)
        {
            return null;
        }

        bool flows = currentA > mostCurrentA;
        _above = flows ? _above + 1 : 0;
        _atRest = flows ? 0 : _atRest + 1;
        return _above < Readings ? null : FormattableString.Invariant($"a current of {currentA:0.000} A flows (at rest at most {mostCurrentA:0.000} A)");
    }

    /// <summary>Takes a count.</summary>
    /// <returns>What it shows, in plain words; null for rest.</returns>
    public string? Count(double timeS, int count)
    {
        if (timeS - _offS < CoastS)
        {
            return null;
        }

        int from = _restingAt ??= count;
        double moved = Math.Abs(ring.Difference(count, from));
        return moved <= Math.Max(LeastMovedCounts, MovedShare * ring.Counts) ? null : $"the count moves on (from {from} to {count})";
    }
}
