using Bench.Devices.Buses;

namespace Bench.Tests.Devices.Buses;

public class PacerTests
{
    private readonly SteppedTime _time = new();

    [Fact]
    public void Next_CallerIsQuick_BeatsOnSchedule() => _time.Run(async () =>
    {
        using Pacer pacer = new(_time, TimeSpan.FromMilliseconds(10), TimeSpan.FromMilliseconds(3));
        for (int beat = 1; beat <= 5; beat++)
        {
            await pacer.NextAsync(CancellationToken.None);
            Assert.Equal(3 + (10 * beat), _time.Now.TotalMilliseconds, 0.001);
            Assert.Equal(0, pacer.Lateness.TotalMilliseconds, 0.001);
        }

        Assert.Equal(0, pacer.Missed);
    });

    [Fact]
    public void Next_CallerIsLate_MakesTheBeatLateAndLeavesOutOlderOnes() => _time.Run(async () =>
    {
        using Pacer pacer = new(_time, TimeSpan.FromMilliseconds(10));
        await pacer.NextAsync(CancellationToken.None);
        await Task.Delay(TimeSpan.FromMilliseconds(14), _time);
        await pacer.NextAsync(CancellationToken.None);
        Assert.Equal(4, pacer.Lateness.TotalMilliseconds, 0.001);
        await Task.Delay(TimeSpan.FromMilliseconds(32), _time); // from 24 to 56 ms: 30 and 40 are too old, 50 is made late
        await pacer.NextAsync(CancellationToken.None);
        Assert.Equal(6, pacer.Lateness.TotalMilliseconds, 0.001);
        Assert.Equal(2, pacer.Missed);
        await pacer.NextAsync(CancellationToken.None);
        Assert.Equal(60, _time.Now.TotalMilliseconds, 0.001);
    });

    [Fact]
    public void Next_Cancelled_ThrowsAtOnce() => _time.Run(async () =>
    {
        using Pacer pacer = new(_time, TimeSpan.FromSeconds(10));
        using CancellationTokenSource cancel = new(TimeSpan.FromMilliseconds(5), _time);
        await Assert.ThrowsAsync<OperationCanceledException>(() => pacer.NextAsync(cancel.Token).AsTask());
        Assert.Equal(5, _time.Now.TotalMilliseconds, 0.001);
    });
}
