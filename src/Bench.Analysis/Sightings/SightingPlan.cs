using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sightings;

/// <summary>
/// What a poll rate means for finding missed sensors at a family's own speed (C5): sightings per pass, and the passes and
/// time until the ring is tested. By the same limits as the verdict on a run.
/// </summary>
/// <param name="RateHz">Position readings per second.</param>
/// <param name="SpeedCountsPerS">Counts per second.</param>
/// <param name="SightingProbability">Chance that one pass sights a healthy count, min(1, 1/(wD)), at most 0.98.</param>
/// <param name="Passes">Independent passes over a count after which a dead sensor would have been found.</param>
/// <param name="TurningS">Time of turning for as many revolutions, seconds.</param>
/// <param name="LeastS">The same with the rest that the profile's duty limit asks for, seconds.</param>
public sealed record SightingPlan(
    double RateHz, double SpeedCountsPerS, double SightingProbability, int Passes, double TurningS, double LeastS)
{
    /// <summary>Revolutions that a move from port to port turns, on average of a tour.</summary>
    public const double RevolutionsPerMove = 0.6;

    /// <summary>The plan at a rate, turning steadily.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="rateHz">Position readings per second, above 0.</param>
    public static SightingPlan For(Profile profile, double rateHz)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rateHz);
        double speed = profile.Electrical.RunningSpeedCountsPerS;
        double p = Math.Min(SightingChances.MostProbable, rateHz / speed);
        int passes = (int)Math.Ceiling(RingVerdict.LogPower(profile.Demonstration, profile.Ring.Counts) / Math.Log(1 - p));
        double turning = passes * profile.Ring.Counts / speed;
        return new SightingPlan(rateHz, speed, p, passes, turning, turning / profile.Safety.MostDuty);
    }

    /// <summary>Revolutions that a profile's routine can turn at most.</summary>
    public static double RevolutionsOf(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        double revolutionS = profile.Ring.Counts / profile.Electrical.RunningSpeedCountsPerS;

        // Moves that provoke a fault are none of those that test the ring.
        return profile.Routine.Where(stage => !stage.Kind.Provokes()).Sum(stage =>
        {
            double moveS = (RevolutionsPerMove * revolutionS) + (stage.SettleMs / 1000);
            return stage.Revolutions + (RevolutionsPerMove * Math.Min(stage.MostMoves, stage.MostS / moveS));
        });
    }

    /// <summary>Least rate at which as many revolutions as a profile's routine turns test a count, 1/s; null when it turns less than one, or nothing is counted.</summary>
    public static double? LeastRateHz(Profile profile)
    {
        double revolutions = RevolutionsOf(profile);
        return revolutions < 1 || profile.Feedback == FeedbackKind.Switches
            ? null
            : (1 - Math.Exp(RingVerdict.LogPower(profile.Demonstration, profile.Ring.Counts) / revolutions)) * profile.Electrical.RunningSpeedCountsPerS;
    }
}
