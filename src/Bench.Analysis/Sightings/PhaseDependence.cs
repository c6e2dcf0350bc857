namespace Bench.Analysis.Sightings;

/// <summary>
/// How much less the passes tell than independent ones. Moves that begin at one port at one phase of the poll loop sight
/// the same counts again: m such passes are worth one, and the variance of sightings is m times the binomial one. So the
/// variance found over the whole ring, in units of the binomial, says how many passes are worth one.
/// </summary>
internal static class PhaseDependence
{
    /// <summary>Share of counts, the least deviating, that is used: what is really dead or dirty must not count as dependence.</summary>
    private const double Kept = 0.8;

    /// <summary>Mean of a chi-square variable with one degree of freedom below its 80 % point, F3(1.642)/0.8.</summary>
    private const double KeptMean = 0.4377;

    /// <summary>Least passes over a count for its deviation to be of use.</summary>
    private const int LeastPasses = 5;

    /// <summary>Least counts passed for an estimate.</summary>
    private const int LeastCounts = 50;

    /// <summary>Passes that are worth one independent pass, at least 1.</summary>
    public static double PassesPerIndependent(RingSightings ring)
    {
        List<double> squares = [];
        for (int c = 0; c < ring.Passes.Length; c++)
        {
            if (ring.Passes[c] >= LeastPasses)
            {
                double p = ring.Expected[c] / ring.Passes[c];
                double d = ring.Sighted[c] - ring.Expected[c];
                squares.Add(d * d / (ring.Expected[c] * (1 - p)));
            }
        }

        if (squares.Count < LeastCounts)
        {
            return 1;
        }

        squares.Sort();
        return Math.Max(1, squares.Take((int)(Kept * squares.Count)).Average() / KeptMean);
    }
}
