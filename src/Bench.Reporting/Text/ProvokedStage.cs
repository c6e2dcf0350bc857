using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Reporting.Text;

/// <summary>One stage of a run's routine that provokes, as it is told: what was done, what came of it, or why it was not run.</summary>
internal sealed record ProvokedStage(Stage Stage, ProvocationResult? Result, RunRecord Record)
{
    private readonly IReadOnlyList<RunEvent> _events = StageNotes.Of(Record, Stage.Kind);

    /// <summary>Those of a run, worst first: refuted, undecided, shown, not run; none where the routine provokes nothing or nothing was measured.</summary>
    public static IReadOnlyList<ProvokedStage> Of(RunRecord record) => record.Features is not { } features ? [] :
    [
        .. record.Start.Profile.Routine.Where(s => s.Kind.Provokes())
            .Select(s => new ProvokedStage(s, features.Provocations?.FirstOrDefault(p => p.Stage == s.Kind && p.Test.Moves > 0), record))
            .OrderBy(s => s.Result?.Test.State switch
            {
                SequentialState.Refuted => 0,
                SequentialState.Continue or SequentialState.Truncated => 1,
                SequentialState.Shown => 2,
                _ => 3,
            }),
    ];

    /// <summary>Its name.</summary>
    public string Name => Stage.Kind.Title();

    /// <summary>What was done, in a sentence; of a stage that was not run, why.</summary>
    public string Done => Result is null ? $"Not run: {NotRunBecause}." : Stage.Kind switch
    {
        StageKind.LowSupply or StageKind.HighSupply => AtSupply(),
        StageKind.Starts => "Short starts from ever other angles, either way as far as the drive allows.",
        _ => Sentence(Note(Stage.Kind == StageKind.Connector ? StageNotes.ConnectorMoved : StageNotes.WindingEstimated)) + Rise(),
    };

    /// <summary>What was counted and what of it failed.</summary>
    public string Counted => Result is not { Test: var test } ? "–" : Stage.Kind switch
    {
        StageKind.Connector => $"{Quantity.Number(test.Failed)} of {Quantity.Count(test.Moves, "second", "seconds")} with a dropout",
        StageKind.Starts => $"{Quantity.Number(test.Failed)} of {Quantity.Count(test.Moves, "start", "starts")} failed",
        _ => $"{Quantity.Number(test.Failed)} of {Quantity.Count(test.Moves, "move", "moves")} failed",
    };

    /// <summary>Where its test stands.</summary>
    public string State => Result is not { Test: var test } ? "not run" : (test.State, test.Failed) switch
    {
        (SequentialState.Refuted, _) => "shown to fail too often",
        (SequentialState.Shown, _) => "shown to fail seldom enough",
        (SequentialState.Truncated, _) => "no decision within the most allowed",
        (_, > 0) => "ended with a failure before a decision",
        _ => "ended before a decision",
    };

    /// <summary>What its test says with which confidence, and where it is not held against the unit, why.</summary>
    public string Decided
    {
        get
        {
            if (Result is not { Test: var test } result)
            {
                return "–";
            }

            string share = test.State == SequentialState.Refuted && result.LowerLimit95 is double lower
                ? $"at least {Quantity.Percent(lower)} fail"
                : $"at most {Quantity.Percent(test.UpperLimit95 ?? 1)} fail";
            string? doubt = Record.Features!.Features.FirstOrDefault(f => f.Name == ProvokedFeatures.Of(Stage.Kind))?.NotAssessableBecause;
            return $"{Sentence(State)[..^1]}; with 95 % confidence {share}."
                + (doubt is null ? "" : $" Not held against the unit: {doubt}.");
        }
    }

    /// <summary>Its moves that failed.</summary>
    public IEnumerable<MoveFeatures> FailedMoves =>
        Record.Features!.Moves.Where(m => m.Stage == Stage.Kind && !m.Passed && (m.ToPort is not null || Stage.Kind != StageKind.Warm));

    private string NotRunBecause =>
        StageNotes.LeftOutBecause(Record, Stage.Kind)
        ?? (_events.Count > 0 ? _events.LastOrDefault(e => e.Kind == RunEventKind.Note)?.Text ?? "it had begun when the run ended"
            : Record.Abort is not null ? "the run ended before it"
            : "the record does not say why");

    private string AtSupply()
    {
        double[] loaded = [.. Record.Features!.Moves.Where(m => m.Stage == Stage.Kind).Select(m => m.LoadedVoltageV).OfType<double>().Order()];
        string set = StageNotes.SupplySetTo(_events) is { } voltage ? $"set to {voltage} and read back" : "set";
        string measured = loaded.Length == 0 ? "" : $"; under load {Quantity.Of(loaded[loaded.Length / 2], "V")} measured";
        return $"Moves from port to port with the supply {set}, the {(Stage.Kind == StageKind.LowSupply ? "least" : "greatest")} that the unit is tested at{measured}.";
    }

    private string? Note(string begins) =>
        _events.FirstOrDefault(e => e.Kind == RunEventKind.Note && e.Text.StartsWith(begins, StringComparison.Ordinal))?.Text;

    private string Rise() => Note(StageNotes.WindingRose) is { } rose ? " " + Sentence(rose) : "";

    private static string Sentence(string? text) => text is { Length: > 0 } ? char.ToUpperInvariant(text[0]) + text[1..] + "." : "";
}
