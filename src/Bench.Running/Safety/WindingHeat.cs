using Bench.Model.Profiles;

namespace Bench.Running.Safety;

/// <summary>
/// Estimate of the motor winding's temperature from the current it takes (S7): a body of one time constant, heated by
/// I² R and cooled to ambient. tau d(theta)/dt = R_th I² R - theta, theta being the rise above ambient, and
/// R = R_20 (1 + alpha (T - 20)). A worst case, not a measurement: it begins at the greatest ambient, and leaves out the
/// housing, which takes heat up for minutes.
/// </summary>
/// <remarks>
/// Between two readings the current is held and the solution is exact, with R as it was at the first; readings are some
/// 20 ms apart, time constants some seconds. Textbook of small motors, first-order model (from memory); copper's
/// coefficient after IEC 60028, 0.00393 1/K at 20 °C (from memory).
/// </remarks>
internal sealed class WindingHeat(WindingLimits limits, double windingOhm, double runningCurrentA)
{
    private const double CopperPerK = 0.00393;
    private const double ReferenceCelsius = 20;

    private double _riseK;
    private double _currentA;
    private double _atS;

    /// <summary>The model of a family; null when its profile has none.</summary>
    public static WindingHeat? For(Profile profile) =>
        profile.Safety.Winding is { } limits
            ? new WindingHeat(limits, profile.Electrical.WindingOhm, profile.Electrical.RunningCurrentA)
            : null;

    /// <summary>Greatest temperature allowed, degrees Celsius.</summary>
    public double MostCelsius => limits.MostCelsius;

    /// <summary>Takes the current that flows from a time on; the one before held until then.</summary>
    /// <param name="timeS">Seconds, not before the last.</param>
    /// <param name="currentA">Amperes; 0 for the drive off.</param>
    public void Take(double timeS, double currentA)
    {
        Advance(timeS);
        _currentA = currentA;
    }

    /// <summary>Temperature at a time, degrees Celsius.</summary>
    public double CelsiusAt(double timeS)
    {
        Advance(timeS);
        return limits.AmbientCelsius + _riseK;
    }

    /// <summary>
    /// Rest, in seconds, needed from a time, drive off, before a move of <paramref name="onS"/> at the family's running
    /// current ends no hotter than allowed; infinite when even a cold winding would.
    /// </summary>
    public double RestBefore(double nowS, double onS)
    {
        double rise = CelsiusAt(nowS) - limits.AmbientCelsius;
        double most = limits.MostCelsius - limits.AmbientCelsius;

        // Resistance at the limit, so that the move may be a little shorter than it need be, never longer.
        double end = limits.ThermalKPerW * runningCurrentA * runningCurrentA * Ohm(limits.MostCelsius);
        double keeps = Math.Exp(-onS / limits.TimeConstantS);
        double allowed = Math.Min(most, (most - (end * (1 - keeps))) / keeps);
        return rise <= allowed ? 0
            : allowed <= 0 ? double.PositiveInfinity
            : limits.TimeConstantS * Math.Log(rise / allowed);
    }

    private double Ohm(double celsius) => windingOhm * (1 + (CopperPerK * (celsius - ReferenceCelsius)));

    private void Advance(double timeS)
    {
        double watt = _currentA * _currentA * Ohm(limits.AmbientCelsius + _riseK);
        double end = limits.ThermalKPerW * watt;
        _riseK = end + ((_riseK - end) * Math.Exp(-Math.Max(0, timeS - _atS) / limits.TimeConstantS));
        _atS = Math.Max(_atS, timeS);
    }
}
