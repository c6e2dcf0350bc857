using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>What a truncated sequential test does to units of one true share of failing moves (C11): exact, by the binomial recursion, not Wald's approximation.</summary>
/// <param name="Shown">Chance that the demonstration is reached.</param>
/// <param name="Refuted">Chance that it is refuted.</param>
/// <param name="Truncated">Chance that the greatest number of moves ends it undecided.</param>
/// <param name="ExpectedMoves">Mean number of moves to the first decision.</param>
public sealed record OperatingCharacteristic(double Shown, double Refuted, double Truncated, double ExpectedMoves)
{
    /// <summary>The characteristic at one share.</summary>
    /// <param name="plan">The plan, see <see cref="SequentialTest(Demonstration)"/>.</param>
    /// <param name="share">True share of failing moves, 0 to 1.</param>
    /// <exception cref="ArgumentException">The plan is not a test.</exception>
    public static OperatingCharacteristic At(Demonstration plan, double share)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentOutOfRangeException.ThrowIfNegative(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(share, 1);
        SequentialTest test = new(plan);

        // at[k]: chance of being undecided with k failures so far.
        double[] at = new double[plan.MostMoves + 1];
        at[0] = 1;
        double shown = 0, refuted = 0, moves = 0;
        for (int n = 1; n <= plan.MostMoves; n++)
        {
            moves += at.Sum();
            for (int k = n; k >= 0; k--)
            {
                double chance = (at[k] * (1 - share)) + (k > 0 ? at[k - 1] * share : 0);
                SequentialState state = test.At(test.RatioOf(k, n - k));
                shown += state == SequentialState.Shown ? chance : 0;
                refuted += state == SequentialState.Refuted ? chance : 0;
                at[k] = state == SequentialState.Continue ? chance : 0;
            }
        }

        return new OperatingCharacteristic(shown, refuted, at.Sum(), moves);
    }
}
