namespace Bench.Model.Instruments;

/// <summary>Voltages that a supply may be set to.</summary>
/// <param name="LowestV">Lowest, volts, above 0.</param>
/// <param name="HighestV">Highest, volts.</param>
public readonly record struct SupplyRange(double LowestV, double HighestV)
{
    /// <summary>How far a set value may be from what was asked, as a share: steps of a converter of 10 bits or better. Common practice, no source.</summary>
    public const double SettingTolerance = 0.005;

    /// <summary>The lowest voltage to ask for, so that what is set lies inside all the same, volts.</summary>
    public double LowestSettingV => LowestV / (1 - SettingTolerance);

    /// <summary>The highest voltage to ask for, so that what is set lies inside all the same, volts.</summary>
    public double HighestSettingV => HighestV / (1 + SettingTolerance);

    /// <summary>Whether a voltage may be asked for; NaN may not.</summary>
    public bool Allows(double voltageV) => voltageV >= LowestV && voltageV <= HighestV;

    /// <summary>What two ranges have in common; allows nothing when they have nothing.</summary>
    public SupplyRange And(SupplyRange other) => new(Math.Max(LowestV, other.LowestV), Math.Min(HighestV, other.HighestV));
}
