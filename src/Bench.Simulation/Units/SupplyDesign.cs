namespace Bench.Simulation.Units;

/// <summary>The bench's supply as one unit position sees it: a source behind a resistance, voltage measured at the bench's terminals.</summary>
/// <param name="OpenV">Voltage without load, volts.</param>
/// <param name="SourceOhm">Resistance of source, fuse and leads to the terminals, ohms.</param>
public sealed record SupplyDesign(double OpenV, double SourceOhm)
{
    /// <summary>Source resistance of a healthy bench, ohms.</summary>
    public const double HealthySourceOhm = 0.25;
}
