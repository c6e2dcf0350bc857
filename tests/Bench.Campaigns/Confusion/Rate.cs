using System.Globalization;
using MathNet.Numerics.Distributions;

namespace Bench.Campaigns.Confusion;

/// <summary>A share with its exact two-sided 95 % interval (Clopper and Pearson, Biometrika 26, 1934).</summary>
/// <param name="Hits">How many.</param>
/// <param name="Of">Of how many.</param>
public readonly record struct Rate(int Hits, int Of)
{
    /// <summary>The share in percent; 0 of none.</summary>
    public double Percent => Of == 0 ? 0 : 100.0 * Hits / Of;

    /// <summary>The interval, as shares.</summary>
    public (double Low, double High) Interval => (
        Hits == 0 ? 0 : Beta.InvCDF(Hits, Of - Hits + 1, 0.025),
        Hits == Of ? 1 : Beta.InvCDF(Hits + 1, Of - Hits, 0.975));

    /// <inheritdoc/>
    public override string ToString()
    {
        (double low, double high) = Interval;
        return string.Create(CultureInfo.InvariantCulture, $"{Hits,5} of {Of,5}  {Percent,6:0.00} %  ({100 * low:0.00} to {100 * high:0.00})");
    }
}
