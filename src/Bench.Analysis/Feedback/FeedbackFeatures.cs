using Bench.Analysis.Statistics;
using Bench.Analysis.Supply;
using Bench.Model.Features;
using Bench.Model.Rings;

namespace Bench.Analysis.Feedback;

/// <summary>Features of the feedback and of the link it is read over.</summary>
internal static class FeedbackFeatures
{
    private const int LeastAttempts = 20;
    private const int LeastAtRest = 5;

    /// <summary>Standard uncertainty of a silence, seconds: its ends lie within a time-out of 40 ms each, rectangular.</summary>
    private const double InstantU = 0.016;

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(LostReadings lost, RestReadings rest, LinkCondition link, Ring ring)
    {
        yield return link.Share;
        string? because = link.Because
            ?? (lost.Attempts < LeastAttempts ? $"position was asked for {lost.Attempts} times only" : null);
        if (because is not null)
        {
            yield return Feature.Missing("feedback.silent_share", because);
            yield return Feature.Missing("feedback.silent_s", because);
            yield return Feature.Missing("feedback.dropouts", because);
            yield return Feature.Missing("feedback.off_ring", because);
        }
        else
        {
            yield return Feature.Of(
                "feedback.silent_share", (double)lost.Failed / lost.Attempts, Shares.Uncertainty(lost.Failed, lost.Attempts), lost.Attempts);
            yield return Feature.Of("feedback.silent_s", lost.LongestS, InstantU, lost.Attempts);
            yield return link.Explains(lost.Dropouts, lost.Attempts)
                ? Feature.Missing("feedback.dropouts", $"at the link's own rate of failed exchanges, {lost.Dropouts} among {lost.Attempts} readings are no surprise")
                : lost.Dropouts > 0 && LinkCondition.SpellExplains(lost.Witnessed)
                ? Feature.Missing("feedback.dropouts", $"{lost.Dropouts} with {lost.Witnessed} failed readings in all can still be bad spells of the link that struck none of the bench's own exchanges")
                : Feature.Of("feedback.dropouts", lost.Dropouts, 0, lost.Attempts);
            yield return Feature.Of("feedback.off_ring", lost.OffRing, 0, lost.Attempts);
        }

        if (rest.CountsBeforeMotion.Count < LeastAtRest)
        {
            yield return Feature.Missing("feedback.wander_counts", "the feedback gave fewer than five readings before the first move");
            yield break;
        }

        int first = rest.CountsBeforeMotion[0];
        int span = rest.CountsBeforeMotion.Max(c => ring.Difference(c, first)) - rest.CountsBeforeMotion.Min(c => ring.Difference(c, first));
        yield return Feature.Of("feedback.wander_counts", span, 0, rest.CountsBeforeMotion.Count);
    }
}
