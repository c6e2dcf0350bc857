using Bench.Analysis.Supply;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Rings;

namespace Bench.Analysis.Feedback;

/// <summary>Features of the feedback and of the link it is read over.</summary>
internal static class FeedbackFeatures
{
    private const int LeastAttempts = 20;
    private const int LeastAtRest = 5;

    /// <summary>What makes a silence uncertain: its ends lie within a time-out of 40 ms each, so their difference is triangular over 40 ms both ways.</summary>
    private static readonly Contribution Instants = new("instants of begin and end", EvaluationType.B, ErrorDistribution.Triangular, 0.04 / Math.Sqrt(6));

    /// <summary>A silence that is not worth doubting, seconds: what two lost exchanges cost.</summary>
    private const double MomentS = 0.1;

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
            double share = (double)lost.Failed / lost.Attempts;
            yield return Against(link, "feedback.silent_share", share, [Contributions.Share(lost.Failed, lost.Attempts)], lost.Attempts);
            yield return Against(link, "feedback.silent_s", lost.LongestS, [Instants], lost.Attempts, beyond: MomentS);
            yield return Dropouts(lost, link);
            yield return Against(link, "feedback.off_ring", lost.OffRing, [], lost.Attempts);
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

    private static Feature Dropouts(LostReadings lost, LinkCondition link)
    {
        string? because = lost.Dropouts == 0 ? null
            : link.Explains(lost.Dropouts, lost.Attempts) ? $"at the link's own rate of failed exchanges, {lost.Dropouts} among {lost.Attempts} readings are no surprise"
            : LinkCondition.SpellExplains(lost.Witnessed) ? $"{lost.Dropouts} with {lost.Witnessed} failed readings in all can still be bad spells of the link that struck none of the bench's own exchanges"
            : null;
        return because is not null ? Feature.Missing("feedback.dropouts", because) : Against(link, "feedback.dropouts", lost.Dropouts, [], lost.Attempts);
    }

    // Nothing is what a good feedback shows on any link; anything else may be the link's.
    private static Feature Against(LinkCondition link, string name, double value, IEnumerable<Contribution> budget, int observations, double beyond = 0) =>
        value > beyond && link.Doubt is string doubt ? Feature.Missing(name, doubt) : MeasuredFeature.Of(name, value, budget, observations);
}
