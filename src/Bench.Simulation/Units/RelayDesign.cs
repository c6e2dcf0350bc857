namespace Bench.Simulation.Units;

/// <summary>The output relays: changeover contacts that short the motor at rest.</summary>
/// <param name="OperateS">From coil on to contact made, seconds.</param>
/// <param name="ReleaseS">From coil off to contact at rest, seconds.</param>
public sealed record RelayDesign(double OperateS, double ReleaseS)
{
    /// <summary>A small signal relay (common practice, no source).</summary>
    public static RelayDesign Usual { get; } = new(0.004, 0.0025);
}
