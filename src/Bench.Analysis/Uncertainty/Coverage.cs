using MathNet.Numerics.Distributions;

namespace Bench.Analysis.Uncertainty;

/// <summary>Coverage factor of an expanded uncertainty for about 95 % (JCGM 100:2008, G.3 and G.6.4).</summary>
public static class Coverage
{
    /// <summary>Share of a normal distribution within two standard deviations: the coverage that k = 2 stands for.</summary>
    public const double Share = 0.9544997361036416;

    /// <summary>t for <see cref="Share"/>, both sides: 2 for infinite degrees of freedom, 2.28 for 10, 3.31 for 3.</summary>
    /// <param name="degreesOfFreedom">Effective degrees of freedom, at least 1; fractions are interpolated (G.4.1, note 1).</param>
    public static double Factor(double degreesOfFreedom)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(degreesOfFreedom, 1);
        return StudentT.InvCDF(0, 1, degreesOfFreedom, (1 + Share) / 2);
    }
}
