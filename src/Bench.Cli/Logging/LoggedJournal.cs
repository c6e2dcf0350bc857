using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Serilog;
using Serilog.Events;

namespace Bench.Cli.Logging;

/// <summary>Copies a run's events and moves into the log, with the run's id on every line.</summary>
internal sealed class LoggedJournal(IRunJournal inner, RunStart start, ILogger log) : IRunJournal
{
    private readonly ILogger _log = log.ForContext("Run", start.Id).ForContext("Serial", start.Return.Serial);

    /// <inheritdoc/>
    public void Write(RunEvent entry)
    {
        inner.Write(entry);
        LogEventLevel level = entry.Kind == RunEventKind.Fault ? LogEventLevel.Warning : LogEventLevel.Information;
        _log.Write(level, "{TimeS} {Kind}: {Text}", entry.TimeS, BenchJson.Word(entry.Kind), entry.Text);
    }

    /// <inheritdoc/>
    public void Write(int first, ReadOnlySpan<Sample> samples) => inner.Write(first, samples);

    /// <inheritdoc/>
    public void Write(Move move)
    {
        inner.Write(move);
        _log.Debug("Move {Number} {Stage} to {Target}: {End}", move.Number, BenchJson.Word(move.Stage), move.TargetCount, BenchJson.Word(move.End));
    }

    /// <inheritdoc/>
    public void Seal(RunRecord record, Trace trace)
    {
        inner.Seal(record, trace);
        _log.Information(
            "Sealed: {Outcome} {Disposition} {Abort}, outputs confirmed off {Off}",
            BenchJson.Word(record.Outcome),
            record.Judgement?.Disposition,
            record.Abort,
            record.OutputsConfirmedOff);
    }

    /// <inheritdoc/>
    public void Dispose() => inner.Dispose();
}
