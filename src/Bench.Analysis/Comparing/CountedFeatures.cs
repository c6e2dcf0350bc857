using Bench.Model.Comparisons;
using Bench.Model.Features;

namespace Bench.Analysis.Comparing;

/// <summary>How features that count are compared: as shares of trials, as rates of events, or not at all.</summary>
internal static class CountedFeatures
{
    // Trials are moves, starts, readings or exchanges: the feature's observations.
    private static readonly HashSet<string> Shares =
    [
        "motion.locked_moves", "motion.no_current_moves", "motion.free_running_moves", "motion.count_still_moves",
        "motion.still_share", "motion.locked_share", "demonstration.failed_moves", ProvokedFeatures.FailedStarts, "feedback.silent_share", "bench.link_error_share",
    ];

    // Several can befall one move, so they are no share; watched for as many moves or readings as there are observations.
    private static readonly HashSet<string> Rates = ["current.interruptions", "feedback.dropouts", "feedback.off_ring", "switch.contradictions"];

    /// <summary>How a feature is tested.</summary>
    public static DifferenceTest TestOf(Feature feature) =>
        Shares.Contains(feature.Name) ? DifferenceTest.Share
        : Rates.Contains(feature.Name) ? DifferenceTest.Rate
        : InspectionFeatures.Item(feature.Name) is not null || FeatureCatalog.Get(feature.Name).Counted ? DifferenceTest.None
        : DifferenceTest.Measured;

    /// <summary>Events behind a share or a rate.</summary>
    public static long Events(Feature feature) =>
        (long)Math.Round(feature.Unit == "1" && feature.Name.EndsWith("_share", StringComparison.Ordinal) ? feature.Value!.Value * feature.Observations : feature.Value!.Value);
}
