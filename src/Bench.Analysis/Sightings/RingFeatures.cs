using Bench.Analysis.Extraction;
using Bench.Model.Features;

namespace Bench.Analysis.Sightings;

/// <summary>The ring in three numbers (C5).</summary>
internal static class RingFeatures
{
    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RingMap ring, RunSoFar run)
    {
        int passes = ring.Passes.Sum();
        if (passes == 0)
        {
            string because = run.Moves.Count == 0 ? "there were no moves" : "no count was passed in steady motion";
            yield return Feature.Missing("ring.dead_counts", because);
            yield return Feature.Missing("ring.weak_counts", because);
        }
        else
        {
            yield return Feature.Of("ring.dead_counts", ring.States.Count(s => s == SensorState.Dead), 0, passes);
            yield return Feature.Of("ring.weak_counts", ring.States.Count(s => s == SensorState.Weak), 0, passes);
        }

        yield return Feature.Of("ring.coverage", ring.Coverage, 0, passes);
    }
}
