namespace Bench.Simulation.Units;

/// <summary>How a position's meters depart from a mean of 5 ms with noise. What is left out is not there.</summary>
public sealed record MeterDesign
{
    /// <summary>Time over which current and voltage are averaged, seconds.</summary>
    public double WindowS { get; init; } = Plant.MeterWindowS;

    /// <summary>Offset, as a multiple of the meter's standard uncertainty.</summary>
    public double Offset { get; init; }

    /// <summary>Amplitude of a slow drift, as a multiple of the standard uncertainty.</summary>
    public double Drift { get; init; }

    /// <summary>Period of the drift, seconds.</summary>
    public double DriftPeriodS { get; init; } = 600.0;

    /// <summary>Step in which the meter counts, as a multiple of the standard uncertainty; 0 for none.</summary>
    public double Step { get; init; }

    /// <summary>What is shown in place of a value, noise included.</summary>
    /// <param name="value">The value.</param>
    /// <param name="uncertainty">The meter's standard uncertainty, in the value's unit.</param>
    /// <param name="timeS">When, seconds.</param>
    public double Shown(double value, double uncertainty, double timeS)
    {
        double shown = value + (uncertainty * (Offset + (Drift * Math.Sin(2.0 * Math.PI * timeS / DriftPeriodS))));
        return Step > 0.0 ? Math.Round(shown / (Step * uncertainty)) * Step * uncertainty : shown;
    }
}
