using Bench.Analysis.Sightings;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Says so where the bench could not read as often as a computation needs; nothing for records that hold no times.</summary>
public static class RateShortfall
{
    /// <summary>
    /// Meter readings per second below which C7 loses something it needs: the verdict on a move that stood still rests on
    /// the current of its last 0.3 s, and six readings are the least of which one that is wrong does not move the median.
    /// </summary>
    public const double LeastMeterRateHz = 20;

    /// <summary>For C5: null when the rate held would have tested the ring within the routine.</summary>
    public static string? OfPosition(RunFeatures features, Profile profile)
    {
        if (features.Sampling is null || features.PositionRateHz is not { } rate || rate <= 0
            || SightingPlan.LeastRateHz(profile) is not { } least || rate >= least)
        {
            return null;
        }

        SightingPlan plan = SightingPlan.For(profile, rate);
        return FormattableString.Invariant(
            $"A faster link, or fewer units at once on this one: position was read {rate:0.#} times a second, and about {least:0} are needed at {plan.SpeedCountsPerS:0} counts/s. At the rate held one pass sees a healthy sensor with probability {plan.SightingProbability:0.00}, so {plan.Passes} passes over every sensor are needed; the routine turns about {SightingPlan.RevolutionsOf(profile):0} revolutions.");
    }

    /// <summary>For C7: null when the rate held was enough.</summary>
    public static string? OfMeters(RunFeatures features) =>
        features.Sampling?.Meters.MedianIntervalS is { } interval && interval > 1 / LeastMeterRateHz
            ? FormattableString.Invariant(
                $"Current was read {1 / interval:0.#} times a second, fewer than the {LeastMeterRateHz:0} it takes to see an interruption of {1000 / LeastMeterRateHz:0} ms: shorter ones than {1000 * interval:0} ms may have been missed, and peaks too.")
            : null;
}
