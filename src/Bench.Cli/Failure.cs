using Bench.Cli.Output;
using Bench.Model.Configuration;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Running.Safety;

namespace Bench.Cli;

/// <summary>An expected failure as messages for a person and an exit code.</summary>
/// <param name="ExitCode">The code.</param>
/// <param name="Messages">The messages, each a line.</param>
internal sealed record Failure(int ExitCode, IReadOnlyList<string> Messages)
{
    /// <summary>What an exception says; null when it is none that is expected.</summary>
    public static Failure? Of(Exception exception) => exception switch
    {
        CliException e => new(e.ExitCode, [e.Message]),
        ConfigurationException e => new(Cli.ExitCode.BadInput,
        [
            .. e.Errors.Select(error => error.ToString()),
            e.Errors.Count == 1 ? "1 error; nothing was energised." : $"{e.Errors.Count} errors; nothing was energised.",
        ]),
        StoreException e => new(Cli.ExitCode.BadInput, [e.Message]),
        JournalException e => new(Cli.ExitCode.BenchFault, [$"The run was stopped because it can't be recorded: {e.Message}"]),
        DeviceFaultException e => new(Cli.ExitCode.BenchFault, [e.Message]),
        OperationCanceledException => new(Cli.ExitCode.Interrupted, ["Interrupted; no run was under way."]),
        OutputNotConfirmedException e => new(Cli.ExitCode.SafetyAbort, [e.Message]),
        _ => null,
    };

    /// <summary>Says the messages on standard error.</summary>
    public void Say()
    {
        foreach (string message in Messages)
        {
            Terminal.Say(message);
        }
    }
}
