namespace Bench.Records.Owners;

/// <summary>The processes of this computer: who writes a run, and whether they still live.</summary>
public interface IProcessTable
{
    /// <summary>This process.</summary>
    ProcessMark Self { get; }

    /// <summary>Whether that very process still runs.</summary>
    bool IsRunning(ProcessMark process);
}
