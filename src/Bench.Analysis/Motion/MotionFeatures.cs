using Bench.Analysis.Extraction;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Motion;

/// <summary>Moves that did not turn, jumps of the count, and coast.</summary>
internal static class MotionFeatures
{
    private const string StillShare = "motion.still_share";
    private const string LockedShare = "motion.locked_share";
    private const string NoCurrentInARow = "motion.no_current_in_a_row";

    /// <summary>What makes a jump uncertain: two means of eight readings, each rectangular over one count, and a course bent by the seat (an assumption).</summary>
    public static IReadOnlyList<Contribution> JumpBudget { get; } =
    [
        new("course bent by the seat", EvaluationType.B, ErrorDistribution.Normal, 0.48),
        new("resolution of the count, two means of eight readings", EvaluationType.B, ErrorDistribution.Normal, Contributions.Resolution(1) / 2),
    ];

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        yield return Moves(run, "motion.locked_moves", StillKind.Locked);
        yield return CurrentPath.Doubt(run, bench) is string doubt
            ? Feature.Missing("motion.no_current_moves", doubt)
            : Moves(run, "motion.no_current_moves", StillKind.NoCurrent);
        yield return Moves(run, "motion.free_running_moves", StillKind.FreeRunning);
        yield return Moves(run, "motion.count_still_moves", StillKind.CountStill);
        if (profile.Names(StillShare))
        {
            yield return Share(run, StillShare, kind => kind != StillKind.None);
        }

        if (profile.Names(LockedShare))
        {
            yield return Share(run, LockedShare, kind => kind == StillKind.Locked);
        }

        if (profile.Names(NoCurrentInARow))
        {
            yield return CurrentPath.Doubt(run, bench, provoked: true) is string unknown ? Feature.Missing(NoCurrentInARow, unknown)
                : run.Moves.Count > 0 ? Feature.Of(NoCurrentInARow, InARow(run), 0, run.Moves.Count + run.Provoked.Count)
                : Feature.Missing(NoCurrentInARow, "there were no moves");
        }

        if (profile.Names(ProvokedFeatures.NoCurrent))
        {
            yield return run.Provoked.Count == 0 ? Feature.Missing(ProvokedFeatures.NoCurrent, ProvokedFeatures.NotRun)
                : CurrentPath.Doubt(run, bench, provoked: true) is string unknown ? Feature.Missing(ProvokedFeatures.NoCurrent, unknown)
                : Feature.Of(ProvokedFeatures.NoCurrent, run.Provoked.Count(p => p.Still.Kind == StillKind.NoCurrent), 0, run.Provoked.Count);
        }

        double[] jumps = run.Each(m => m.JumpCounts);
        yield return jumps.Length > 0
            ? MeasuredFeature.Of("count.jump_counts", jumps.Max(), JumpBudget, jumps.Length)
            : Feature.Missing("count.jump_counts", "no move turned steadily for long enough");
        double[] coasts = run.Each(m => m.CoastCounts is double c ? Math.Abs(c) : null);
        if (coasts.Length == 0)
        {
            yield return Feature.Missing("coast.counts", "no move landed under readings");
            yield break;
        }

        (double median, Contribution scatter) = Contributions.Median(coasts, "scatter from move to move", 0.5, "a single coast: resolution and timing");
        yield return MeasuredFeature.Of("coast.counts", median, [scatter], coasts.Length);
    }

    private static Feature Share(RunSoFar run, string name, Func<StillKind, bool> counts) =>
        run.Moves.Count > 0
            ? Feature.Of(name, run.Still.Count(s => counts(s.Kind)) / (double)run.Moves.Count, 0, run.Moves.Count)
            : Feature.Missing(name, "there were no moves");

    private static int InARow(RunSoFar run)
    {
        int row = 0, most = 0;
        foreach (StillMove move in run.Still.Concat(run.Provoked.Select(p => p.Still)))
        {
            row = move.Kind == StillKind.NoCurrent ? row + 1 : 0;
            most = Math.Max(most, row);
        }

        return most;
    }

    private static Feature Moves(RunSoFar run, string name, StillKind kind) =>
        run.Moves.Count > 0
            ? Feature.Of(name, run.Still.Count(s => s.Kind == kind), 0, run.Moves.Count)
            : Feature.Missing(name, "there were no moves");
}
