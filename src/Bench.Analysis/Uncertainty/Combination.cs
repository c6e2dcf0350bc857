using Bench.Model.Features;

namespace Bench.Analysis.Uncertainty;

/// <summary>Contributions to uncertainty combined (JCGM 100:2008), sources taken as independent.</summary>
public static class Combination
{
    /// <summary>Beyond so many degrees of freedom the coverage factor is 2 to half a per cent, and they are taken as infinite.</summary>
    public const double MostFreedom = 200;

    /// <summary>Combined standard uncertainty, the root sum of squares of c u (5.1.2, equation 10).</summary>
    /// <param name="budget">Contributions; 0 of none.</param>
    public static double StandardUncertainty(IReadOnlyList<Contribution> budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        return Math.Sqrt(budget.Sum(c => c.InFeature * c.InFeature));
    }

    /// <summary>Effective degrees of freedom after Welch and Satterthwaite (G.4.1, equation G.2b); null for infinite.</summary>
    /// <param name="budget">Contributions; those of null degrees of freedom count as exactly known.</param>
    public static double? DegreesOfFreedom(IReadOnlyList<Contribution> budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        double u = StandardUncertainty(budget);
        double sum = budget.Sum(c => c.DegreesOfFreedom is double v ? Math.Pow(c.InFeature / u, 4) / v : 0);
        return sum > 1 / MostFreedom ? 1 / sum : null;
    }
}
