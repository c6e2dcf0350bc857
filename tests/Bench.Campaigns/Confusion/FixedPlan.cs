using Bench.Model.Profiles;
using MathNet.Numerics.Distributions;

namespace Bench.Campaigns.Confusion;

/// <summary>
/// The fixed-length routine with the same error rates as the sequential one: the least number of moves n for which some
/// number of failures c accepts a good unit (p0) with 1 - alpha and a bad one (p1) with at most beta. Single sampling
/// plan by the binomial distribution, as in ISO 2859-2 and textbooks of acceptance sampling.
/// </summary>
public static class FixedPlan
{
    /// <summary>Moves of the plan.</summary>
    public static int Moves(Demonstration plan)
    {
        for (int n = 1; ; n++)
        {
            Binomial good = new(plan.P0, n);
            Binomial bad = new(plan.P1, n);
            for (int c = 0; c < n && bad.CumulativeDistribution(c) <= plan.Beta; c++)
            {
                if (good.CumulativeDistribution(c) >= 1 - plan.Alpha)
                {
                    return n;
                }
            }
        }
    }
}
