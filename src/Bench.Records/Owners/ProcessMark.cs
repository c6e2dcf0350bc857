namespace Bench.Records.Owners;

/// <summary>One process, told apart from a later one that got the same id.</summary>
/// <param name="Id">The system's process id.</param>
/// <param name="Started">When it started, as the system counts; equal texts mean the same process.</param>
public sealed record ProcessMark(int Id, string Started);
