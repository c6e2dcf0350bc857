using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Runs;

namespace Bench.Analysis.Motion;

/// <summary>Moves that did not turn, jumps of the count, and coast.</summary>
internal static class MotionFeatures
{
    /// <summary>Standard uncertainty of a jump: two means of eight readings, each rectangular over one count, and a bent course.</summary>
    private const double JumpUncertainty = 0.5;

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, BenchSnapshot bench)
    {
        yield return Moves(run, "motion.locked_moves", StillKind.Locked);
        yield return CurrentPath.Doubt(run, bench) is string doubt
            ? Feature.Missing("motion.no_current_moves", doubt)
            : Moves(run, "motion.no_current_moves", StillKind.NoCurrent);
        yield return Moves(run, "motion.free_running_moves", StillKind.FreeRunning);
        yield return Moves(run, "motion.count_still_moves", StillKind.CountStill);
        double[] jumps = run.Each(m => m.JumpCounts);
        yield return jumps.Length > 0
            ? Feature.Of("count.jump_counts", jumps.Max(), JumpUncertainty, jumps.Length)
            : Feature.Missing("count.jump_counts", "no move turned steadily for long enough");
        double[] coasts = run.Each(m => m.CoastCounts is double c ? Math.Abs(c) : null);
        if (coasts.Length == 0)
        {
            yield return Feature.Missing("coast.counts", "no move landed under readings");
            yield break;
        }

        (double median, double u) = Robust.MedianWithUncertainty(coasts, 0.5);
        yield return Feature.Of("coast.counts", median, u, coasts.Length);
    }

    private static Feature Moves(RunSoFar run, string name, StillKind kind) =>
        run.Moves.Count > 0
            ? Feature.Of(name, run.Still.Count(s => s.Kind == kind), 0, run.Moves.Count)
            : Feature.Missing(name, "there were no moves");
}
