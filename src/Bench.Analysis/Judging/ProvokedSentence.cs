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

        ProvocationResult[] made = [.. (features.Provocations ?? []).Where(p => p.Test.Moves > 0)];
        string[] sentences =
        [
            Sentence("Provoked, it did not fail either", made.Where(p => p.Test is { Failed: 0, State: SequentialState.Shown }).Select(Counted)),
            Sentence("Provoked for too short a time to tell", made.Where(p => p.Test is { Failed: 0, State: not SequentialState.Shown }).Select(Counted)),
            Sentence("Not tried", kinds.Except(made.Select(p => p.Stage)).Select(k => k.Title())),
        ];
        return string.Join(' ', sentences.Where(s => s.Length > 0)) is { Length: > 0 } all ? all : null;
    }

    private static string Sentence(string what, IEnumerable<string> stages) =>
        string.Join(", ", stages) is { Length: > 0 } named ? $"{what}: {named}." : "";

    private static string Counted(ProvocationResult result)
    {
        string unit = result.Stage switch { StageKind.Connector => "second", StageKind.Starts => "start", _ => "move" };
        return FormattableString.Invariant($"{result.Stage.Title()} ({result.Test.Moves} {unit}{(result.Test.Moves == 1 ? "" : "s")})");
    }
}
