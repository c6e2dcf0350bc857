using Bench.Devices.Modbus.Client;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Client;

public class TurnaroundTests
{
    [Fact]
    public void Statistics_AnyAnswers_AreThoseOfTheLatestSorted() =>
        Gen.Int[0, 1000].Array[1, 200].Sample(all =>
        {
            Turnaround turnaround = new();
            Array.ForEach(all, t => turnaround.Add(TimeSpan.FromTicks(t)));
            int[] latest = [.. all.TakeLast(Turnaround.Window).Order()];
            int n = latest.Length;
            Assert.Equal(n, turnaround.Statistics.Answers);
            Assert.Equal(latest[n / 2], turnaround.Statistics.Median.Ticks);
            Assert.Equal((long)((latest[3 * n / 4] - latest[n / 4]) / 1.349), turnaround.Statistics.Spread.Ticks);
        });

    [Fact]
    public void Usual_TooFewAnswers_IsUnlimited()
    {
        Turnaround turnaround = new();
        for (int i = 1; i < Turnaround.Least; i++)
        {
            turnaround.Add(TimeSpan.FromMilliseconds(1));
        }

        Assert.Equal(TimeSpan.MaxValue, turnaround.Usual);
        turnaround.Add(TimeSpan.FromMilliseconds(1));
        Assert.Equal(TimeSpan.FromMilliseconds(1), turnaround.Usual);
    }
}
