namespace Bench.Cli;

/// <summary>Ends a verb with one message on standard error and an exit code.</summary>
internal sealed class CliException(int exitCode, string message) : Exception(message)
{
    /// <summary>The exit code.</summary>
    public int ExitCode { get; } = exitCode;
}
