using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sightings;

/// <summary>What follows from sightings for every count (C5).</summary>
internal static class RingVerdict
{
    /// <summary>Counts in a pooled window: a film or drop of dirt covers about so many.</summary>
    public const int Window = 16;

    /// <summary>A window seen at least this share as often as expected is not called weak, however many passes there were.</summary>
    public const double LeastWindowShare = 0.85;

    /// <summary>The same for one count: sensors' arcs are not equally wide, and what one lacks its neighbours have.</summary>
    public const double LeastCountShare = 0.6;

    /// <summary>Passes from which a count is judged at all: fewer can share one phase of the polling, and be one observation.</summary>
    public const int LeastPasses = 6;

    /// <summary>In a weak arc, counts whose own p-value lies below this belong to it.</summary>
    private const double MemberAlpha = 0.02;

    /// <summary>ln of the chance below which a count that was never seen is called dead: half of alpha, over all counts.</summary>
    public static double LogPower(Demonstration plan, int counts) => Math.Log(plan.MissedSensorAlpha / 2 / counts);

    /// <summary>Share of counts passed often enough that a dead sensor would have been found.</summary>
    public static double Coverage(RingSightings ring, Demonstration plan)
    {
        double power = LogPower(plan, ring.Passes.Length) * PhaseDependence.PassesPerIndependent(ring);
        return Enumerable.Range(0, ring.Passes.Length).Count(c => IsTested(ring, c, power)) / (double)ring.Passes.Length;
    }

    /// <summary>Further revolutions that would bring coverage to what the plan asks, at the passes per revolution so far.</summary>
    public static int RevolutionsToGo(RingSightings ring, Demonstration plan)
    {
        int n = ring.Passes.Length;
        double power = LogPower(plan, n) * PhaseDependence.PassesPerIndependent(ring);
        double usual = ring.Passes.Sum() is int all and > 0 ? ring.LogMissed.Sum() / all : Math.Log(0.5);
        double[] revolutions = new double[n];
        for (int c = 0; c < n; c++)
        {
            double perPass = ring.Passes[c] > 0 ? ring.LogMissed[c] / ring.Passes[c] : usual;

            // As if two revolutions with a pass each had gone before, else the first moves say too little.
            double passesPerRevolution = Math.Min(1, (ring.Passes[c] + 2) / (ring.Revolutions + 2));
            revolutions[c] = Math.Max(0, (power - ring.LogMissed[c]) / perPass) / passesPerRevolution;
        }

        Array.Sort(revolutions);
        int needed = Math.Clamp((int)Math.Ceiling(plan.RingCoverage * n), 1, n);
        return (int)Math.Ceiling(revolutions[needed - 1]);
    }

    /// <summary>The map with the state of every count.</summary>
    public static RingMap Map(RingSightings ring, Demonstration plan) => new()
    {
        Passes = [.. ring.Passes],
        Expected = [.. ring.Expected],
        Sightings = [.. ring.Sighted],
        States = States(ring, plan),
        Coverage = Coverage(ring, plan),
        RevolutionsToGo = RevolutionsToGo(ring, plan),
    };

    private static bool IsTested(RingSightings ring, int count, double power) =>
        ring.Passes[count] >= LeastPasses && ring.LogMissed[count] <= power;

    private static SensorState[] States(RingSightings ring, Demonstration plan)
    {
        int n = ring.Passes.Length;
        double alpha = plan.MissedSensorAlpha / 2;
        double worth = PhaseDependence.PassesPerIndependent(ring);
        double power = LogPower(plan, n) * worth;
        double[] p = new double[n];
        SensorState[] states = new SensorState[n];
        for (int c = 0; c < n; c++)
        {
            p[c] = TooSeldom(ring.Sighted[c], ring.Passes[c], ring.Expected[c], ring.LogMissed[c], worth);
            states[c] = IsTested(ring, c, power) ? SensorState.Seen : SensorState.Untested;
        }

        bool[] rejected = Holm.Rejected(p, alpha);
        for (int c = 0; c < n; c++)
        {
            if (rejected[c] && ring.Sighted[c] < LeastCountShare * ring.Expected[c])
            {
                states[c] = ring.Sighted[c] == 0 ? SensorState.Dead : SensorState.Weak;
            }
        }

        MarkWeakArcs(ring, p, states, alpha / n, worth);
        return states;
    }

    // Dead counts are left out of the pool, else one of them would make its healthy neighbours weak.
    private static void MarkWeakArcs(RingSightings ring, double[] p, SensorState[] states, double alpha, double worth)
    {
        int n = states.Length;
        int width = Math.Min(Window, n);
        bool[] dead = [.. states.Select(s => s == SensorState.Dead)];
        for (int first = 0; first < n; first++)
        {
            int passes = 0, sighted = 0;
            double expected = 0;
            for (int k = 0; k < width; k++)
            {
                int c = (first + k) % n;
                passes += dead[c] ? 0 : ring.Passes[c];
                sighted += dead[c] ? 0 : ring.Sighted[c];
                expected += dead[c] ? 0 : ring.Expected[c];
            }

            if (sighted < LeastWindowShare * expected && BinomialLimits.LowerTail(sighted / worth, passes / worth, expected / passes) <= alpha)
            {
                for (int k = 0; k < width; k++)
                {
                    int c = (first + k) % n;
                    states[c] = dead[c] || p[c] <= MemberAlpha ? SensorState.Weak : states[c];
                }
            }
        }
    }

    // Chance of so few sightings of a healthy count. Exact for none; else a binomial at the mean probability, whose lower
    // tail is never smaller than that of the sum of unlike trials for k <= np - 1 (Hoeffding 1956): on the safe side.
    // Passes count by what they are worth.
    private static double TooSeldom(int sighted, int passes, double expected, double logMissed, double worth) =>
        passes < LeastPasses ? 1
        : sighted == 0 ? Math.Exp(logMissed / worth)
        : BinomialLimits.LowerTail(sighted / worth, passes / worth, expected / passes);
}
