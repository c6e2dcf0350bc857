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
        _ = new SequentialTest(plan);
        double fail = Math.Log(plan.P1 / plan.P0);
        double pass = Math.Log((1 - plan.P1) / (1 - plan.P0));
        double acceptAt = Math.Log(plan.Beta / (1 - plan.Alpha));
        double rejectAt = Math.Log((1 - plan.Beta) / plan.Alpha);

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
                double ratio = (k * fail) + ((n - k) * pass);
                shown += ratio <= acceptAt ? chance : 0;
                refuted += ratio >= rejectAt ? chance : 0;
                at[k] = ratio > acceptAt && ratio < rejectAt ? chance : 0;
            }
        }

        return new OperatingCharacteristic(shown, refuted, at.Sum(), moves);
    }
}
