namespace Bench.Simulation.Units;

/// <summary>
/// The motor's two equations, L di/dt = v - R i - K w and J dw/dt = K i - b w - T, with dry friction T that truly sticks.
/// </summary>
/// <remarks>
/// Trapezoidal rule at a fixed step: second order, stable however stiff the winding, and it keeps the energy balance
/// exactly, so the unit neither gains nor loses energy by computation; two linear equations are solved in closed form,
/// which costs less than the four slopes of a Runge-Kutta step. Dry friction is constant over a step, against the motion;
/// when the speed would change sign within a step the rotor stops, and it starts again only when K i exceeds T.
/// </remarks>
public sealed class MotorCircuit
{
    private readonly MotorDesign _motor;
    private readonly double _stepS;
    private readonly double _inertiaTerm;
    private readonly double _inertiaTermBefore;
    private double _ohm = double.NegativeInfinity;
    private double _windingTerm;
    private double _windingTermBefore;
    private double _inverse;

    /// <summary>Makes a motor at rest without current.</summary>
    /// <param name="motor">Constants; its winding resistance is not used, the caller gives that of the whole loop.</param>
    /// <param name="stepS">Step, seconds.</param>
    public MotorCircuit(MotorDesign motor, double stepS)
    {
        ArgumentNullException.ThrowIfNull(motor);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stepS);
        _motor = motor;
        _stepS = stepS;
        _inertiaTerm = (motor.InertiaKgM2 / stepS) + (motor.ViscousNmS / 2.0);
        _inertiaTermBefore = (motor.InertiaKgM2 / stepS) - (motor.ViscousNmS / 2.0);
    }

    /// <summary>Current, amperes.</summary>
    public double CurrentA { get; private set; }

    /// <summary>Speed, rad/s.</summary>
    public double SpeedRadPerS { get; private set; }

    /// <summary>Whether the last step left motion and current as they were, so that the next would too.</summary>
    public bool Steady { get; private set; } = true;

    /// <summary>One step.</summary>
    /// <param name="volt">Voltage in the loop, volts.</param>
    /// <param name="ohm">Resistance of the loop, ohms; infinite when it is open, and then the current ends at once.</param>
    /// <param name="dryNm">Dry friction, N·m, not negative, for the direction the motor turns or is urged.</param>
    /// <returns>Angle turned, rad.</returns>
    public double Step(double volt, double ohm, double dryNm)
    {
        if (double.IsPositiveInfinity(ohm))
        {
            Steady = CurrentA == 0.0 && SpeedRadPerS == 0.0;
            CurrentA = 0.0;
            return SpeedRadPerS == 0.0 ? 0.0 : Turn(0.0, Coasted(dryNm));
        }

        Prepare(ohm);
        double k = _motor.TorqueConstantNmPerA;
        double current = CurrentA;
        double speed = SpeedRadPerS;
        double winding = volt + (_windingTermBefore * current) - (k / 2.0 * speed);
        double sense = Math.Sign(speed);
        if (speed == 0.0)
        {
            double held = winding / _windingTerm;
            double urge = k * (current + held) / 2.0;
            if (Math.Abs(urge) <= dryNm)
            {
                // The test is relative: the current nears its end value for ever, and no one can see the rest.
                Steady = Math.Abs(held - current) <= 1e-9 * Math.Abs(held) || Math.Abs(held) < 1e-9;
                CurrentA = held;
                return 0.0;
            }

            sense = Math.Sign(urge);
        }

        Steady = false;
        double shaft = (_inertiaTermBefore * speed) + (k / 2.0 * current) - (sense * dryNm);
        double newCurrent = ((winding * _inertiaTerm) - (k / 2.0 * shaft)) * _inverse;
        double newSpeed = ((shaft * _windingTerm) + (k / 2.0 * winding)) * _inverse;
        return Turn(newCurrent, newSpeed);
    }

    private double Coasted(double dryNm) =>
        ((_inertiaTermBefore * SpeedRadPerS) - (Math.Sign(SpeedRadPerS) * dryNm)) / _inertiaTerm;

    private double Turn(double newCurrent, double newSpeed)
    {
        double speed = SpeedRadPerS;
        CurrentA = newCurrent;
        if (speed * newSpeed < 0.0)
        {
            // It comes to rest within the step, after the share of it that the straight line between the speeds says.
            SpeedRadPerS = 0.0;
            return speed * speed / (speed - newSpeed) * _stepS / 2.0;
        }

        SpeedRadPerS = newSpeed;
        return (speed + newSpeed) / 2.0 * _stepS;
    }

    private void Prepare(double ohm)
    {
        if (ohm == _ohm)
        {
            return;
        }

        _ohm = ohm;
        double l = _motor.InductanceH / _stepS;
        double k = _motor.TorqueConstantNmPerA;
        _windingTerm = l + (ohm / 2.0);
        _windingTermBefore = l - (ohm / 2.0);
        _inverse = 1.0 / ((_windingTerm * _inertiaTerm) + (k * k / 4.0));
    }
}
