using Bench.Model.Profiles;
using MathNet.Numerics.RootFinding;

namespace Bench.Running.Safety;

/// <summary>
/// Estimate of the motor winding's temperature from the current it takes (S7): a body of one time constant, heated by
/// I² R and cooled to its housing, and the housing another, heated by the same and cooled to ambient:
/// tau d(theta)/dt = R_th I² R - theta for each, the winding's rise above ambient being the sum of both, and
/// R = R_20 (1 + alpha (T - 20)). A worst case, not a measurement: it begins at the greatest ambient.
/// </summary>
/// <remarks>
/// Between two readings the current is held and the solution is exact, with R as it was at the first; readings are some
/// 20 ms apart, time constants some seconds. Where the profile says nothing of the housing there is the one body alone.
/// Textbook of small motors, two-body model (from memory); copper's coefficient after IEC 60028, 0.00393 1/K at 20 °C
/// (from memory).
/// </remarks>
internal sealed class WindingHeat
{
    private const double CopperPerK = 0.00393;
    private const double ReferenceCelsius = 20;

    /// <summary>Rest is told to within so much, seconds.</summary>
    private const double RestWithinS = 0.001;
    private const int MostHalvings = 100;

    /// <summary>
    /// Time at stall current that heats as much as running up, seconds: half the mechanical time constant, since
    /// ∫ (I e^(-t/tau))² R dt = I² R tau/2 (textbook of small motors, from memory); 60 ms for a small gearmotor, common practice,
    /// no source.
    /// </summary>
    private const double RunUpS = 0.03;

    private readonly WindingLimits _limits;
    private readonly double _windingOhm;
    private readonly double _runningCurrentA;
    private readonly double _stallCurrentA;
    private readonly HeatedBody _winding;
    private readonly HeatedBody _housing;
    private double _currentA;
    private double _runsUpUntilS = double.NaN;
    private double _atS;

    /// <summary>A winding at the greatest ambient.</summary>
    /// <param name="limits">How it heats and how hot it may become.</param>
    /// <param name="windingOhm">Its resistance at 20 °C, ohms.</param>
    /// <param name="runningCurrentA">Current of a turning valve, amperes.</param>
    /// <param name="stallCurrentA">Current of a motor that stands, amperes: what a start draws at first.</param>
    public WindingHeat(WindingLimits limits, double windingOhm, double runningCurrentA, double stallCurrentA)
    {
        (_limits, _windingOhm, _runningCurrentA, _stallCurrentA) = (limits, windingOhm, runningCurrentA, stallCurrentA);
        _winding = new HeatedBody(limits.ThermalKPerW, limits.TimeConstantS);

        // One that sheds all heat at once stays as cool as the room.
        _housing = limits.Housing is { } housing ? new HeatedBody(housing.ThermalKPerW, housing.TimeConstantS) : new HeatedBody(0, 1);
    }

    /// <summary>The model of a family; null when its profile has none.</summary>
    public static WindingHeat? For(Profile profile) =>
        profile.Safety.Winding is { } limits
            ? new WindingHeat(limits, profile.Electrical.WindingOhm, profile.Electrical.RunningCurrentA, profile.Electrical.StallCurrentA)
            : null;

    /// <summary>Greatest temperature allowed, degrees Celsius.</summary>
    public double MostCelsius => _limits.MostCelsius;

    /// <summary>
    /// The drive goes on: until the first reading it draws what a motor that stands does, as long as gives the heat of running up, and then
    /// what a turning valve does. Short starts heat more by that than by all that is measured of them.
    /// </summary>
    public void Start(double nowS)
    {
        Take(nowS, _stallCurrentA);
        _runsUpUntilS = nowS + RunUpS;
    }

    /// <summary>Takes the current that flows from a time on; the one before held until then.</summary>
    /// <param name="timeS">Seconds, not before the last.</param>
    /// <param name="currentA">Amperes; 0 for the drive off.</param>
    public void Take(double timeS, double currentA)
    {
        Advance(timeS);
        _currentA = currentA;
        _runsUpUntilS = double.NaN;
    }

    /// <summary>Temperature at a time, degrees Celsius.</summary>
    public double CelsiusAt(double timeS)
    {
        Advance(timeS);
        return Celsius;
    }

    /// <summary>
    /// Rest, in seconds, needed from a time, drive off, before a move of <paramref name="onS"/> begins and ends no hotter than
    /// allowed; infinite when even a cold winding would not.
    /// </summary>
    /// <param name="nowS">The time, seconds.</param>
    /// <param name="onS">On-time of the move, seconds.</param>
    /// <param name="currentA">Current it draws, amperes; null for the family's running current.</param>
    public double RestBefore(double nowS, double onS, double? currentA = null)
    {
        Advance(nowS);

        // Resistance at the limit, so that the move may be a little shorter than it need be, never longer.
        // A reading early in the run-up is held until the next, so a start may be taken for twice as hot as it is.
        (double, double) start = (2 * RunUpS, Watt(_stallCurrentA));
        (double, double) then = (onS, Watt(currentA ?? _runningCurrentA));
        double most = _limits.MostCelsius - _limits.AmbientCelsius;
        double Rise(double restS, (double, double) first, (double, double) second) =>
            _winding.RiseAfterRest(restS, first, second) + _housing.RiseAfterRest(restS, first, second);
        double Over(double restS) => Math.Max(Rise(restS, default, default), Math.Max(Rise(restS, start, default), Rise(restS, start, then))) - most;

        if (Over(0) <= 0)
        {
            return 0;
        }

        if (Over(double.PositiveInfinity) >= 0)
        {
            return double.PositiveInfinity;
        }

        // It only cools: the longer the rest, the cooler both ends of the move.
        double enough = _limits.TimeConstantS;
        while (Over(enough) > 0)
        {
            enough *= 2;
        }

        return Bisection.FindRoot(Over, 0, enough, RestWithinS, MostHalvings) + RestWithinS;
    }

    // Resistance at the limit, so that the move may be a little shorter than it need be, never longer.
    private double Watt(double ampere) => ampere * ampere * Ohm(_limits.MostCelsius);

    private double Celsius => _limits.AmbientCelsius + _winding.RiseK + _housing.RiseK;

    private double Ohm(double celsius) => _windingOhm * (1 + (CopperPerK * (celsius - ReferenceCelsius)));

    private void Advance(double timeS)
    {
        if (timeS > _runsUpUntilS)
        {
            double upS = _runsUpUntilS;
            _runsUpUntilS = double.NaN;
            Advance(upS);
            _currentA = _runningCurrentA;
        }

        double watt = _currentA * _currentA * Ohm(Celsius);
        double seconds = Math.Max(0, timeS - _atS);
        _winding.Advance(seconds, watt);
        _housing.Advance(seconds, watt);
        _atS = Math.Max(_atS, timeS);
    }
}
