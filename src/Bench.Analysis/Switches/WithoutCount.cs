using Bench.Model.Features;

namespace Bench.Analysis.Switches;

/// <summary>What no unit with port switches can answer: it has no count between ports.</summary>
internal static class WithoutCount
{
    private static readonly string[] Unanswerable =
    [
        "feedback.off_ring",
        "feedback.wander_counts",
        "landing.error_counts",
        "landing.repeatability_counts",
        "landing.accuracy_counts",
        "index.reversal_counts",
        "index.shift_counts",
        "index.step_counts",
        "index.drift_counts_per_100_moves",
        "index.home_shift_counts",
        "count.jump_counts",
        "ring.dead_counts",
        "ring.weak_counts",
        "current.tight_spot_ratio",
        "coast.counts",
    ];

    /// <summary>The features with those that need a count answered so, once each.</summary>
    public static IEnumerable<Feature> Answer(IEnumerable<Feature> features) =>
        features.Where(f => !Unanswerable.Contains(f.Name))
            .Concat(Unanswerable.Select(n => Feature.Missing(n, "port switches give no count between ports")));
}
