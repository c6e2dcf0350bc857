using Bench.Model.Rings;

namespace Bench.Simulation.Units;

/// <summary>
/// The small controller in a unit that turns itself: full voltage the short way round, off ahead of the target by the
/// coast, once more where that was not enough. It works only while the unit has power.
/// </summary>
internal sealed class UnitController(ControllerDesign design, Ring ring, int target)
{
    /// <summary>Time between two looks at its own ring, seconds.</summary>
    public const double PeriodS = 0.001;

    /// <summary>Counts from the target at which it leaves well alone.</summary>
    private const double Deadband = 3.0;

    /// <summary>Time it rests before it looks again whether it has arrived, seconds.</summary>
    private const double RestS = 0.1;

    private double _restsUntilS;
    private int _driving;

    /// <summary>Whether it has power.</summary>
    public bool Powered { get; set; }

    /// <summary>The target as it was last told, counts.</summary>
    public double Target { get; set; } = target;

    /// <summary>Looks, and switches the motor.</summary>
    public void Act(Plant plant)
    {
        double toGo = ring.Difference(Target + design.BesideCounts, (double)plant.ReportedCount);
        if (_driving != 0 && (!Powered || toGo * _driving <= NominalUnit.CoastCounts))
        {
            _driving = 0;
            _restsUntilS = plant.TimeS + RestS;
        }
        else if (_driving == 0 && Powered && design.Obeys && plant.TimeS >= _restsUntilS && Math.Abs(toGo) > Deadband)
        {
            _driving = Math.Sign(toGo);
        }

        plant.CommandUp(_driving > 0);
        plant.CommandDown(_driving < 0);
    }
}
