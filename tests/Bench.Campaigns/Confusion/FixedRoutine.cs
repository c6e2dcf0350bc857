using Bench.Analysis.Sightings;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Campaigns.Confusion;

/// <summary>
/// The routine of fixed length that a unit would go through without a stopping rule: the fixed plan's moves, and as many
/// moves as turn the ring past its sensors often enough at the slowest link, because it can't know which link it has.
/// </summary>
/// <param name="Moves">Moves of the endurance stage and before.</param>
/// <param name="Revolutions">Revolutions that the ring needs at the slowest link.</param>
/// <param name="TestS">Time from the run's begin to its end, seconds.</param>
public sealed record FixedRoutine(int Moves, int Revolutions, double TestS)
{
    /// <summary>The routine of a family, its moves as long as those of a healthy unit's record.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="slowestHz">Position readings per second at the slowest link.</param>
    /// <param name="like">A healthy unit's record.</param>
    public static FixedRoutine Of(Profile profile, double slowestHz, RunRecord like)
    {
        int least = FixedPlan.Moves(profile.Demonstration);
        int revolutions = SightingPlan.For(profile, slowestHz).Passes;
        double turned = 0;
        double seconds = 0;
        for (int made = 0; ; made++)
        {
            if (made >= least && turned >= revolutions)
            {
                return new FixedRoutine(made, revolutions, seconds);
            }

            // Beyond the record the tour goes on like its last ten moves.
            int last = like.Moves.Count;
            int at = made < last ? made : last - 10 + ((made - last) % 10);
            turned += Math.Abs(like.Moves[at].TravelCounts) / (double)profile.Ring.Counts;
            seconds += like.Moves[at].SettledS - (at == 0 ? 0 : like.Moves[at - 1].SettledS);
        }
    }
}
