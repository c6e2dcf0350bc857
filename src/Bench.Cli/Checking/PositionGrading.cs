using Bench.Analysis.Judging;
using Bench.Analysis.Sightings;
using Bench.Model.Profiles;
using Bench.Running.Sampling;

namespace Bench.Cli.Checking;

/// <summary>Grades how often a unit position can be read, by what that means for a run.</summary>
internal static class PositionGrading
{
    /// <summary>Part of the routine's revolutions that the ring may take at best; moves from port to port pass some counts half as often as others.</summary>
    public const double GoodPart = 0.5;

    /// <summary>The grade; null when nothing could be measured because the feedback does not answer.</summary>
    /// <param name="polling">The rehearsal.</param>
    /// <param name="profile">The family it is to be good for; null when none was named.</param>
    public static Graded? Of(RehearsedPolling polling, Profile? profile) =>
        polling.Times.Position.Readings == 0 ? null : Graded.From(Remarks(polling, profile));

    private static IEnumerable<(Grade Grade, string Reason)> Remarks(RehearsedPolling polling, Profile? profile)
    {
        if (polling.MeterRateHz < RateShortfall.LeastMeterRateHz)
        {
            yield return (polling.MeterRateHz == 0 ? Grade.Failing : Grade.Poor, FormattableString.Invariant(
                $"current is read {polling.MeterRateHz:0.#} times a second; below {RateShortfall.LeastMeterRateHz:0} short interruptions are missed: use a faster link, or put meters and inputs side by side so that one read takes them all"));
        }

        if (profile is null)
        {
            yield break;
        }

        double lostMs = profile.Safety.FeedbackLostMs;
        if (1000 * polling.Times.Position.P99IntervalS > lostMs)
        {
            yield return (Grade.Failing, FormattableString.Invariant(
                $"one in a hundred readings comes more than {lostMs:0} ms after the one before, and the profile then ends the move: use a faster link, or mend its errors"));
        }
        else if (1000 * polling.Times.Position.WorstIntervalS > lostMs)
        {
            yield return (Grade.Poor, FormattableString.Invariant(
                $"the longest wait for a reading was {1000 * polling.Times.Position.WorstIntervalS:0} ms, and at {lostMs:0} ms the profile ends the move: mend the link's errors, keep the host free"));
        }

        SightingPlan plan = SightingPlan.For(profile, polling.PositionRateHz);
        double revolutions = SightingPlan.RevolutionsOf(profile);
        if (plan.Passes > revolutions)
        {
            yield return (Grade.Poor, FormattableString.Invariant(
                $"testing the ring takes {plan.Passes} revolutions and the routine turns about {revolutions:0}: units will be held; use a faster link or fewer positions on it ({SightingPlan.LeastRateHz(profile):0} readings a second are needed)"));
        }
        else if (plan.Passes > GoodPart * revolutions)
        {
            yield return (Grade.Usable, FormattableString.Invariant(
                $"testing the ring takes {plan.Passes} of the about {revolutions:0} revolutions of the routine: runs will be long; a faster link shortens them"));
        }
    }
}
