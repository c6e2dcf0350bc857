using Bench.Model.Runs;
using Bench.Running.Safety;
using Serilog;

namespace Bench.Cli.Checking;

/// <summary>Takes what an exercise switches down in the log (S9): there is no run whose record it could stand in.</summary>
internal sealed class LoggedExercise(ILogger log, string position) : IGateRecord
{
    /// <inheritdoc/>
    public void Write(RunEventKind kind, string text) => log.Information("exercise of {Position}: {Kind} {Text}", position, kind, text);

    /// <inheritdoc/>
    public void WriteSoon(RunEventKind kind, string text) => Write(kind, text);
}
