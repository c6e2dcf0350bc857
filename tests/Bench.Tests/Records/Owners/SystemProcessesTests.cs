using Bench.Records.Owners;

namespace Bench.Tests.Records.Owners;

public class SystemProcessesTests
{
    private readonly SystemProcesses _processes = new();

    [Fact]
    public void IsRunning_ThisProcess_Is()
    {
        Assert.Equal(Environment.ProcessId, _processes.Self.Id);
        Assert.True(_processes.IsRunning(_processes.Self));
        Assert.True(_processes.IsRunning(new SystemProcesses().Self));
    }

    [Fact]
    public void IsRunning_SameIdStartedAtAnotherTime_IsNot() =>
        Assert.False(_processes.IsRunning(_processes.Self with { Started = "another boot/1" }));

    [Fact]
    public void IsRunning_IdOfNoProcess_IsNot() =>
        Assert.False(_processes.IsRunning(new ProcessMark(int.MaxValue, _processes.Self.Started)));
}
