namespace Bench.Simulation.Units;

/// <summary>The bench's supply as one unit position sees it: a source behind a resistance, voltage measured at the bench's terminals.</summary>
/// <param name="OpenV">Voltage without load, volts.</param>
/// <param name="SourceOhm">Resistance of source, fuse and leads to the terminals, ohms.</param>
public sealed record SupplyDesign(double OpenV, double SourceOhm)
{
    /// <summary>Frequency of the ripple, hertz: twice the mains'.</summary>
    public const double RippleHz = 100.0;

    /// <summary>Amplitude of the ripple as a share of the voltage.</summary>
    public double RippleShare { get; init; }

    /// <summary>Voltage without load at an instant, over <see cref="OpenV"/>.</summary>
    internal double At(double timeS) => 1.0 + (RippleShare * Math.Cos(2.0 * Math.PI * RippleHz * timeS));

    /// <summary>The mean of that over a time that ends at an instant.</summary>
    internal double MeanOver(double windowS, double timeS)
    {
        double w = 2.0 * Math.PI * RippleHz;
        return 1.0 + (RippleShare * (Math.Sin(w * timeS) - Math.Sin(w * (timeS - windowS))) / (w * windowS));
    }

    /// <summary>Source resistance of a healthy bench, ohms.</summary>
    public const double HealthySourceOhm = 0.25;
}
