using Bench.Cli;
using Bench.Cli.Running;

namespace Bench.Tests.Cli.Running;

public class RunExitTests
{
    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(4, 0, 4)]
    [InlineData(2, 4, 2)]
    [InlineData(130, 2, 4, 130)]
    [InlineData(3, 130, 3)]
    [InlineData(5, 3, 5, 0)]
    public void Worst_OfSeveral_IsAsDocumented(int worst, params int[] codes)
    {
        Assert.Equal(worst, RunExit.Worst(codes));
        Assert.Equal(worst, RunExit.Worst(codes.Reverse()));
    }

    [Fact]
    public void Worst_Done_IsTheBest() => Assert.Equal(ExitCode.Done, RunExit.Worst([ExitCode.Done]));
}
