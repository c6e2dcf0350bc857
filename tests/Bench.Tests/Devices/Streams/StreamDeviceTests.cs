using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Streams;

/// <summary>A device that pushes frames, over a link whose far end is a list of times and bytes.</summary>
public class StreamDeviceTests
{
    private static readonly StreamDescription Stream = SampleStream.Of();

    private readonly SteppedTime _time = new();

    [Fact]
    public void Read_FramesComing_GivesTheNewestAndThenAllBetween() => On(Each(0, 200), async device =>
    {
        StreamCount count = new(device, "count");
        Assert.Equal(0, (await count.ReadAsync(default, default)).Value);
        Assert.True(count.TryTake(out _));
        await Task.Delay(TimeSpan.FromMilliseconds(10), _time);
        long newest = (await count.ReadAsync(default, default)).Value;
        Assert.InRange(newest, 9, 11);
        long at = 0;
        for (int i = 1; i <= newest; i++)
        {
            Assert.True(count.TryTake(out Bench.Devices.Feedbacks.CountReading reading));
            Assert.Equal(i, reading.Value);
            Assert.True(reading.At > at);
            at = reading.At;
        }

        Assert.False(count.TryTake(out _));
        Assert.Equal(newest, (await count.ReadAsync(default, default)).Value); // the newest still, and it waits for no other
    });

    [Fact]
    public void Read_StreamFallsSilent_IsSilentAfterItsTimeoutEachTime() => On(Each(0, 20), async device =>
    {
        StreamTap tap = new(device);
        double[] values = new double[1];
        await Task.Delay(TimeSpan.FromMilliseconds(25), _time);
        Assert.Null((await tap.ReadAsync(values, default)).Fault);
        await Task.Delay(TimeSpan.FromMilliseconds(30), _time);
        Assert.Null((await tap.ReadAsync(values, default)).Fault); // 35 ms old
        await Task.Delay(TimeSpan.FromMilliseconds(30), _time);
        Assert.Equal(DeviceFaultKind.Silent, (await tap.ReadAsync(values, default)).Fault);
        TimeSpan before = _time.Now;
        Assert.Equal(DeviceFaultKind.Silent, (await tap.ReadAsync(values, default)).Fault);
        Assert.InRange((_time.Now - before).TotalMilliseconds, 39, 41);
        Assert.Equal((22, 2), (device.Counts.Exchanges, device.Counts.Silent));
    });

    [Fact]
    public void Read_NewestFrameIsOld_IsNotGivenForNew() => On(Each(0, 20), async device =>
    {
        StreamTap tap = new(device);
        await Task.Delay(TimeSpan.FromMilliseconds(300), _time);
        Assert.Equal(DeviceFaultKind.Silent, (await tap.ReadAsync(new double[1], default)).Fault);
    });

    [Fact]
    public void Counts_LostDoubledAndDamaged_AreTold() => On(
        [
            .. Each(0, 10),
            (TimeSpan.FromMilliseconds(10), Stream.Frame(9)), // doubled
            (TimeSpan.FromMilliseconds(14), Stream.Frame(13)), // 10, 11, 12 lost
            (TimeSpan.FromMilliseconds(15), [.. Stream.Frame(14)[..9], 0]), // damaged
            .. Each(15, 5),
        ],
        async device =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(30), _time);
            LinkCounts counts = device.Counts;
            Assert.Equal((16, 3, 1, 1, 0), (counts.Stream!.Frames, counts.Stream.Lost, counts.Stream.Doubled, counts.Stream.Damaged, counts.Stream.Restarted));
            Assert.Equal((20, 3, 1), (counts.Exchanges, counts.Silent, counts.Garbled));
        });

    [Fact]
    public void TryTake_ConsumerTooLate_DropsTheOldestAndTellsIt() => On(Each(0, 3000), async device =>
    {
        StreamTap tap = new(device);
        double[] values = new double[1];
        await tap.ReadAsync(values, default);
        await Task.Delay(TimeSpan.FromMilliseconds(2500), _time);
        Assert.True(tap.TryTake(values, out _));
        Assert.InRange(values[0], 1495, 1505); // a second's frames are kept
        Assert.InRange(device.Counts.Stream!.Dropped, 1495, 1505);
    });

    [Fact]
    public void Read_LinkGone_IsLinkLost()
    {
        ScriptedLink link = new(_time);
        _time.Run(async () =>
        {
            StreamDevice device = new(link, SampleStream.Device(Stream), isFeedback: true, _time);
            device.Start();
            link.End();
            await Task.Delay(TimeSpan.FromMilliseconds(1), _time);
            Assert.Equal(DeviceFaultKind.LinkLost, (await new StreamTap(device).ReadAsync(new double[1], default)).Fault);
            await device.DisposeAsync();
        });
    }

    private static IEnumerable<(TimeSpan After, byte[] Bytes)> Each(int first, int count) =>
        Enumerable.Range(first, count).Select(i => (TimeSpan.FromMilliseconds(i + 1), Stream.Frame(i, count: i % 60_000)));

    private void On(IEnumerable<(TimeSpan After, byte[] Bytes)> pushed, Func<StreamDevice, Task> test)
    {
        ScriptedLink link = new(_time) { Far = _ => pushed };
        _time.Run(async () =>
        {
            StreamDevice device = new(link, SampleStream.Device(Stream), isFeedback: true, _time);
            device.Start();
            await link.WriteAsync(new byte[1], default); // what is pushed begins now
            await test(device);
            await device.DisposeAsync();
        });
    }
}
