using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>What was done to bring out a fault that comes and goes, and what was not, in a sentence: "it did not come" is worth as much.</summary>
internal static class ProvokedSentence
{
    /// <summary>The sentence; null where no such fault was reported, or the profile provokes none.</summary>
    public static string? Of(RunFeatures features, Profile profile, Symptom symptom)
    {
        StageKind[] kinds = [.. profile.Routine.Select(s => s.Kind).Where(k => k.Provokes())];
        if (symptom != Symptom.Intermittent || kinds.Length == 0)
        {
            return null;
        }

        ProvocationResult[] passed = [.. (features.Provocations ?? []).Where(p => p.Test is { Moves: > 0, Failed: 0 })];
        string[] left = [.. kinds.Except((features.Provocations ?? []).Where(p => p.Test.Moves > 0).Select(p => p.Stage)).Select(k => k.Title())];
        string tried = passed.Length == 0 ? "" : $"Provoked, it did not fail either: {string.Join(", ", passed.Select(Counted))}.";
        string not = left.Length == 0 ? "" : $"Not tried: {string.Join(", ", left)}.";
        return $"{tried} {not}".Trim() is { Length: > 0 } sentence ? sentence : null;
    }

    private static string Counted(ProvocationResult result) => FormattableString.Invariant(
        $"{result.Stage.Title()} ({result.Test.Moves} {(result.Stage == StageKind.Connector ? "seconds" : result.Stage == StageKind.Starts ? "starts" : "moves")})");
}
