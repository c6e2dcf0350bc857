using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Reporting.Text;

namespace Bench.Cli.Running;

/// <summary>How the run of one unit came out.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Record">The sealed record; null when there is none.</param>
/// <param name="Failure">Why there is none.</param>
internal sealed record UnitResult(PlannedUnit Unit, RunRecord? Record, Failure? Failure)
{
    /// <summary>Path of the evidence packet; null when there is no record.</summary>
    public string? Packet { get; init; }

    /// <summary>The exit code it would have alone.</summary>
    public int ExitCode => Record is null ? Failure!.ExitCode : RunExit.CodeOf(Record);

    /// <summary>Whether a person must act at once: outputs that may be on, or safety that ended the run.</summary>
    public bool IsAlarm => ExitCode == Cli.ExitCode.SafetyAbort;

    /// <summary>The verdict as mark and word.</summary>
    public string Verdict => Record is null ? "▲ not recorded" : $"{Mark.Of(Record).Shape} {Mark.Of(Record).Word}";

    /// <summary>One line for a person who waits.</summary>
    public string Line => Record switch
    {
        null => $"{Verdict}: {string.Join(" ", Failure!.Messages)}",
        { AbortText: { } text } when IsAlarm => $"{Verdict}: {text}",
        { AbortText: { } text } => $"{Verdict}: {text}{(Record.OutputsConfirmedOff ? "" : " OUTPUTS NOT CONFIRMED OFF.")}",
        _ => $"{Verdict} after {Record.Moves.Count} moves",
    };

    /// <summary>The result as <c>--json</c> prints it.</summary>
    public object Json => Record is null
        ? new { Position = Unit.Position.Name, Unit.Return.Serial, Error = string.Join(" ", Failure!.Messages) }
        : RunJson.Of(Record, Packet);
}
