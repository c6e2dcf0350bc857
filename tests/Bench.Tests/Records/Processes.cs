using Bench.Records.Owners;

namespace Bench.Tests.Records;

/// <summary>A process table in which the test says who lives.</summary>
internal sealed class Processes(int self, params int[] alive) : IProcessTable
{
    public ProcessMark Self { get; } = Mark(self);

    public bool IsRunning(ProcessMark process) => process == Self || alive.Any(id => process == Mark(id));

    public static ProcessMark Mark(int id) => new(id, $"start of {id}");
}
