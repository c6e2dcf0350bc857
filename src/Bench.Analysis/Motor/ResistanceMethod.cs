namespace Bench.Analysis.Motor;

/// <summary>Temperature rise of a copper winding by its resistance.</summary>
/// <remarks>IEC 60034-1, 8.6.2.3 (from memory): (t2 + 235)/(t1 + 235) = R2/R1, 235 for copper.</remarks>
public static class ResistanceMethod
{
    private const double Copper = 235;

    /// <summary>The rise, kelvins.</summary>
    /// <param name="coldOhm">Resistance at the beginning, ohms, above 0.</param>
    /// <param name="warmOhm">Resistance at the end, ohms, in the same unit.</param>
    /// <param name="coldCelsius">Temperature of the winding at the beginning, degrees Celsius.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cold resistance is not above 0.</exception>
    public static double RiseK(double coldOhm, double warmOhm, double coldCelsius)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coldOhm);
        return PerOhmK(coldOhm, coldCelsius) * (warmOhm - coldOhm);
    }

    /// <summary>Kelvins for each ohm of difference.</summary>
    public static double PerOhmK(double coldOhm, double coldCelsius) => (Copper + coldCelsius) / coldOhm;
}
