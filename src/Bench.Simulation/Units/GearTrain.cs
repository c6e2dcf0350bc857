namespace Bench.Simulation.Units;

/// <summary>Motor to encoder shaft.</summary>
internal sealed class GearTrain(GearDesign design, double lead)
{
    private readonly Play _play = new(design.PlayCounts, lead);
    private readonly double _toMotor = 1.0 / (design.Ratio * design.Efficiency);

    /// <summary>Friction and load at the motor, N·m, when it turns in a direction against a torque at the shaft.</summary>
    internal double LoadAtMotor(int direction, double shaftNm) =>
        design.DryFrictionNm
        + (_play.Engaged(direction) ? Math.Min(shaftNm, design.TransmitsNm) * _toMotor : 0.0);

    /// <summary>Moves the motor by counts of the shaft; returns what the shaft moves. Teeth that ride over move nothing.</summary>
    internal double Move(double counts, double shaftNm)
    {
        double moved = _play.Move(counts);
        return shaftNm > design.TransmitsNm ? 0.0 : moved;
    }
}
