namespace Bench.Cli;

/// <summary>Exit codes of <c>bench</c> (docs/cli.md).</summary>
internal static class ExitCode
{
    /// <summary>Done; a judged run, whatever the disposition.</summary>
    public const int Done = 0;

    /// <summary>Something given is not usable: options, files, folders, confirmations.</summary>
    public const int BadInput = 2;

    /// <summary>A device, link or store of the bench failed.</summary>
    public const int BenchFault = 3;

    /// <summary>The run is held: evidence is not sufficient.</summary>
    public const int Held = 4;

    /// <summary>Safety ended the run.</summary>
    public const int SafetyAbort = 5;

    /// <summary>Interrupted by a person; outputs confirmed off.</summary>
    public const int Interrupted = 130;
}
