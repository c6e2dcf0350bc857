using Bench.Model.Moves;
using Bench.Model.Serialization;

namespace Bench.Model.Runs;

/// <summary>What a record's events say of a stage: written and read in one place.</summary>
public static class StageNotes
{
    /// <summary>How the note begins that says how long a connector was moved and what ended it.</summary>
    public const string ConnectorMoved = "the connector was moved for ";

    /// <summary>How the note begins that says how warm a winding is estimated to have become.</summary>
    public const string WindingEstimated = "the winding is estimated at ";

    /// <summary>How the note begins that sets the winding's rise by resistance against the estimate.</summary>
    public const string WindingRose = "by its resistance the winding rose by ";

    private const string Supply = "supply: ";
    private const string ReadBack = ", read back";

    /// <summary>That a stage begins.</summary>
    public static string Begins(StageKind kind) => $"stage {BenchJson.Word(kind)}";

    /// <summary>That a stage is left out.</summary>
    /// <param name="kind">The stage.</param>
    /// <param name="because">Why, in plain words.</param>
    public static string LeftOut(StageKind kind, string because) => $"{LeavesOut(kind)}{because}";

    /// <summary>That a voltage is asked of the supply, volts.</summary>
    public static string SupplySet(double voltageV) => FormattableString.Invariant($"{Supply}{voltageV:0.00} V");

    /// <summary>As <see cref="SupplySet"/>, that it was read back.</summary>
    public static string SupplyReadBack(double voltageV) => SupplySet(voltageV) + ReadBack;

    /// <summary>Why a stage was left out; null when the record does not say that it was.</summary>
    public static string? LeftOutBecause(RunRecord record, StageKind kind)
    {
        ArgumentNullException.ThrowIfNull(record);
        string begins = LeavesOut(kind);
        return record.Events.FirstOrDefault(e => e.Kind == RunEventKind.Note && e.Text.StartsWith(begins, StringComparison.Ordinal))?.Text[begins.Length..];
    }

    /// <summary>The events of a stage from its beginning to the next one's; none when it never began.</summary>
    public static IReadOnlyList<RunEvent> Of(RunRecord record, StageKind kind)
    {
        ArgumentNullException.ThrowIfNull(record);
        string begins = Begins(kind);
        return
        [
            .. record.Events.SkipWhile(e => e.Kind != RunEventKind.Stage || e.Text != begins)
                .TakeWhile((e, i) => i == 0 || e.Kind != RunEventKind.Stage),
        ];
    }

    /// <summary>The voltage that the supply was set to in a stage and read back, with its unit; null when none was.</summary>
    /// <param name="events">The stage's events.</param>
    public static string? SupplySetTo(IEnumerable<RunEvent> events) => events
        .Where(e => e.Kind == RunEventKind.OutputResult && e.Text.StartsWith(Supply, StringComparison.Ordinal) && e.Text.EndsWith(" V" + ReadBack, StringComparison.Ordinal))
        .Select(e => e.Text[Supply.Length..^ReadBack.Length])
        .FirstOrDefault();

    private static string LeavesOut(StageKind kind) => $"{Begins(kind)} is left out: ";
}
