namespace Bench.Simulation.Units;

/// <summary>
/// Friction that depends on speed: Stribeck's fall from rest to motion, and a viscous share. At running speed it is what dry
/// friction would be, so a unit of another law still runs at its family's current.
/// </summary>
/// <param name="StictionShare">What friction at rest has above that in slow motion, as a share of friction at running speed.</param>
/// <param name="StribeckRadPerS">Motor speed at which that has fallen to 1/e, rad/s.</param>
/// <param name="ViscousShare">Share of friction at running speed that grows with speed, 0 to 1.</param>
/// <param name="RunningRadPerS">Motor's running speed, rad/s.</param>
public sealed record FrictionLaw(double StictionShare, double StribeckRadPerS, double ViscousShare, double RunningRadPerS)
{
    /// <summary>Friction at a motor speed over that at running speed.</summary>
    public double Factor(double radPerS)
    {
        double speed = Math.Abs(radPerS);
        double fall = speed / StribeckRadPerS;
        return 1.0 - ViscousShare + (ViscousShare * speed / RunningRadPerS) + (StictionShare * Math.Exp(-fall * fall));
    }
}
