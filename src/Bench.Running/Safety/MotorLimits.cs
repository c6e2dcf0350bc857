using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Running.Safety;

/// <summary>What a family's motor may be asked to do: direction, longest time on, duty and heat (S7). Times are seconds of one clock.</summary>
internal sealed class MotorLimits(DriveKind kind, SafetyLimits limits, WindingHeat? heat)
{
    /// <summary>A rest shorter than this is what rounding left of one that was kept, seconds.</summary>
    private const double RoundingS = 1e-6;

    private readonly DutyMeter _duty = new(limits.DutyWindowS, limits.MostDuty);

    /// <summary>Why a move must not begin; null when it may.</summary>
    /// <param name="nowS">Now; the drive is off.</param>
    /// <param name="direction">Which way.</param>
    /// <param name="on">How long the drive is to be on.</param>
    public string? Refusal(double nowS, DriveDirection direction, TimeSpan on)
    {
        if (direction == DriveDirection.Down && kind == DriveKind.Single)
        {
            return "this family turns towards rising counts only";
        }

        if (on.TotalMilliseconds > limits.MostOnMs)
        {
            return $"a move of {on.TotalSeconds:0.0} s is longer than the profile allows ({limits.MostOnMs:0} ms)";
        }

        double rest = RestBefore(nowS, on);
        return rest > 0 ? $"the motor must rest {rest:0.0} s first (duty or heat)" : null;
    }

    /// <summary>Rest needed before a move keeps within duty and heat, seconds; infinite when no rest is enough.</summary>
    /// <param name="nowS">Now, seconds.</param>
    /// <param name="on">On-time of the move.</param>
    /// <param name="currentA">Current it may draw, amperes; null for the family's running current.</param>
    public double RestBefore(double nowS, TimeSpan on, double? currentA = null)
    {
        double rest = Math.Max(_duty.RestBefore(nowS, on.TotalSeconds), heat?.RestBefore(nowS, on.TotalSeconds, currentA) ?? 0);
        return rest < RoundingS ? 0 : rest;
    }

    /// <summary>Estimated temperature of the winding, degrees Celsius; null when nothing is known of it.</summary>
    public double? CelsiusAt(double nowS) => heat?.CelsiusAt(nowS);

    /// <summary>The drive goes on.</summary>
    public void On(double nowS)
    {
        _duty.On(nowS);
        heat?.Start(nowS);
    }

    /// <summary>The drive is off.</summary>
    public void Off(double nowS)
    {
        _duty.Off(nowS);
        heat?.Take(nowS, 0);
    }

    /// <summary>Takes the unit's current as measured, amperes.</summary>
    /// <returns>Why the drive must go off, in plain words; null when the winding is cool enough or nothing is known of it.</returns>
    public string? Take(double nowS, double currentA)
    {
        if (heat is null)
        {
            return null;
        }

        heat.Take(nowS, currentA);
        double celsius = heat.CelsiusAt(nowS);
        return celsius < heat.MostCelsius
            ? null
            : FormattableString.Invariant($"the winding is estimated at {celsius:0} °C, the limit being {heat.MostCelsius:0} °C; the move is ended and the motor rests");
    }
}
