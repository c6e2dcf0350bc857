using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>The checks by hand of a profile, the one that promises most information a minute first (C13).</summary>
/// <remarks>
/// A check tells its own mode, of probability p, from all the rest without error, so the entropy of the causes is expected
/// to fall by the entropy of its answer, -p log2 p - (1 - p) log2 (1 - p) (Shannon 1948: mutual information with a
/// noiseless answer). Checks of the same words are one check: it tells each of its modes from the others and from the rest.
/// </remarks>
public static class NextChecks
{
    /// <summary>Minutes of a check whose profile does not say. Common practice, no source.</summary>
    public const double UsualMinutes = 10;

    /// <summary>A check that is expected to tell less is no use, bits.</summary>
    private const double LeastBits = 0.01;

    /// <summary>A cause below this is no contender: a quick look for what is hardly there would else come first.</summary>
    private const double LeastProbability = 0.1;

    /// <summary>The checks worth doing, best first; equal ones by the likelier mode.</summary>
    public static IReadOnlyList<RankedCheck> Rank(IReadOnlyList<Cause> causes, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(causes);
        ArgumentNullException.ThrowIfNull(profile);
        List<RankedCheck> checks = [];
        foreach (IGrouping<string, (Cause Cause, FaultMode Mode)> same in causes
            .Select(c => (Cause: c, Mode: profile.FaultModes.First(m => m.Id == c.Id)))
            .Where(c => c.Mode.NextCheck is not null)
            .GroupBy(c => c.Mode.NextCheck!, StringComparer.Ordinal))
        {
            (Cause cause, FaultMode mode) = same.MaxBy(c => c.Cause.Probability);
            double bits = Entropy([.. same.Select(c => c.Cause.Probability), 1 - same.Sum(c => c.Cause.Probability)]);
            Cause? rival = causes.Where(c => c.Id != cause.Id).MaxBy(c => c.Probability);
            if (bits >= LeastBits && cause.Probability >= LeastProbability)
            {
                checks.Add(new RankedCheck(mode, rival, bits, same.Max(c => c.Mode.Minutes)));
            }
        }

        return [.. checks
            .OrderByDescending(c => c.Bits / (c.Minutes ?? UsualMinutes))
            .ThenByDescending(c => causes.First(x => x.Id == c.Mode.Id).Probability)];
    }

    private static double Entropy(ReadOnlySpan<double> shares)
    {
        double bits = 0;
        foreach (double p in shares)
        {
            bits -= p > 0 ? p * Math.Log2(p) : 0;
        }

        return bits;
    }
}
