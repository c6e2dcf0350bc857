using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Feedback;

/// <summary>How good the bench's own link was, and whether it is too bad to say anything of the unit's feedback.</summary>
/// <param name="Share">The feature bench.link_error_share.</param>
/// <param name="Because">Why nothing can be said of the feedback; null when something can.</param>
/// <param name="Doubt">Why nothing can be held against the feedback; null when something can. What is good of it stays good.</param>
/// <param name="UpperShare">95 % upper limit of the share of exchanges the link fails.</param>
internal sealed record LinkCondition(Feature Share, string? Because, string? Doubt, double UpperShare)
{
    /// <summary>Share of failed exchanges above which a link is bad, where the profile has no limit. Common practice, no source: a wired link at rest fails less than once in a thousand.</summary>
    private const double DefaultMost = 0.01;

    /// <summary>The feedback must fail more often than the bench's own devices at this level to be blamed.</summary>
    private const double BlameAlpha = 0.01;

    /// <summary>How improbable a spell must be before a unit is blamed: a depot tests thousands.</summary>
    private const double SpellAlpha = 1e-4;

    /// <summary>The condition from the counts of exchanges.</summary>
    /// <param name="links">Exchanges with each device.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="bench">The bench.</param>
    /// <param name="doubt">Why a silent feedback says nothing of the unit; null when it does.</param>
    public static LinkCondition Of(IReadOnlyList<LinkCounts> links, Profile profile, BenchSnapshot bench, string? doubt = null)
    {
        (long own, long ownFailed) = Sum(links.Where(l => !l.IsFeedback));
        (long unit, long unitFailed) = Sum(links.Where(l => l.IsFeedback));
        if (own == 0)
        {
            return new LinkCondition(
                Feature.Missing("bench.link_error_share", "the bench's own devices were never asked"),
                "the bench's own devices were never asked, so nothing tells the feedback's silence from a dead link",
                null,
                1);
        }

        Feature share = MeasuredFeature.Of("bench.link_error_share", (double)ownFailed / own, [Contributions.Share(ownFailed, own)], Clamp(own));
        double upper = BinomialLimits.Upper(Clamp(ownFailed), Clamp(own), 0.95);
        double most = profile.Limits.FirstOrDefault(l => l.Feature == "bench.link_error_share")?.Upper ?? DefaultMost;
        string failed = FormattableString.Invariant($"{ownFailed} of {own}");
        if (share.Value > most)
        {
            return new LinkCondition(share, $"the link itself is bad: {failed} exchanges with the bench's own devices failed", null, upper);
        }

        // However seldom: a burst is soon diluted by the good exchanges of a long run.
        bool alike = unitFailed > 0 && ownFailed > 0
            && TwoProportions.FirstGreater(unitFailed, unit, ownFailed, own) > BlameAlpha;
        string? why = unitFailed == 0 ? null
            : doubt ?? Alone(links, bench)
            ?? (alike ? $"the bench's own devices failed as often as the feedback did ({failed} exchanges), so the link may be why" : null);
        return new LinkCondition(share, null, why, upper);
    }

    /// <summary>
    /// Whether a good link's rare failures, two in a row by chance, explain so many dropouts: a Poisson count of mean
    /// attempts · share² reaches it with more than 1 % probability. Failures in bursts strike the bench's own devices
    /// too, and are not counted as dropouts to begin with.
    /// </summary>
    public bool Explains(int dropouts, int attempts) =>
        dropouts > 0 && MathNet.Numerics.SpecialFunctions.GammaLowerRegularized(dropouts, attempts * UpperShare * UpperShare) > BlameAlpha;

    /// <summary>
    /// Whether a bad spell of the link explains failed readings of the feedback between which the bench's own devices
    /// answered each time. A spell that fails each exchange with probability q gives a failure and an answer after it
    /// with q (1 - q), at most a quarter; so n of them with at most 1/4 to the power of n.
    /// </summary>
    public static bool SpellExplains(int witnessed) => Math.Pow(0.25, witnessed) > SpellAlpha;

    // On a link of its own nothing but the feedback tells whether the link is well.
    private static string? Alone(IReadOnlyList<LinkCounts> links, BenchSnapshot bench)
    {
        LinkCounts? alone = links.FirstOrDefault(f => f.IsFeedback && !links.Any(l => !l.IsFeedback && l.Link == f.Link));
        return alone is null || bench.IsProven
            ? null
            : $"the feedback is alone on link {alone.Link}, so its adapter and cable may be why, and no unit has turned at position '{bench.Position}' in the hour before. Run a known good unit at this position: if that one answers throughout, run this one again; if not, change adapter or cable";
    }

    private static (long Exchanges, long Failed) Sum(IEnumerable<LinkCounts> links)
    {
        long exchanges = 0, failed = 0;
        foreach (LinkCounts l in links)
        {
            exchanges += l.Exchanges;
            failed += Math.Min(l.Silent + l.Garbled + l.Refused, l.Exchanges);
        }

        return (exchanges, failed);
    }

    private static int Clamp(long n) => (int)Math.Min(n, int.MaxValue);
}
