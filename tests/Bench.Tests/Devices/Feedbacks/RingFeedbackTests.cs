using Bench.Devices.Feedbacks;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;

namespace Bench.Tests.Devices.Feedbacks;

public class RingFeedbackTests
{
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;

    public RingFeedbackTests()
    {
        _bus = new Bus(_time);
    }

    [Theory]
    [InlineData(0, FeedbackStatus.Ok)]
    [InlineData(799, FeedbackStatus.Ok)]
    [InlineData(800, FeedbackStatus.OutOfRange)]
    [InlineData(65535, FeedbackStatus.OutOfRange)]
    public void Read_RingOf800_TakesOnlyCountsOnIt(int count, FeedbackStatus expected) => _time.Run(async () =>
    {
        _bus.Registers[7] = count;
        FeedbackReading reading = await Feedback(7).ReadAsync(CancellationToken.None);
        Assert.Equal(expected, reading.Status);
        Assert.Equal(reading.Ok ? count : 0, reading.Count);
    });

    [Fact]
    public void Read_NoAnswer_IsSilentAndCounted() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        Assert.Equal(FeedbackStatus.Silent, (await Feedback(7).ReadAsync(CancellationToken.None)).Status);
        Assert.Equal(new LinkCounts("board", "bus", false, 1, 1, 0, 0), _bus.First.Counts);
    });

    [Fact]
    public void Read_AddressTheDeviceLacks_IsRefusedAndCounted() => _time.Run(async () =>
    {
        Assert.Equal(FeedbackStatus.Refused, (await Feedback(99).ReadAsync(CancellationToken.None)).Status);
        Assert.Equal(new LinkCounts("board", "bus", false, 1, 0, 0, 1), _bus.First.Counts);
    });

    [Fact]
    public void Read_LinkGone_IsLinkLost() => _time.Run(async () =>
    {
        _bus.Link.Gone = true;
        Assert.Equal(FeedbackStatus.LinkLost, (await Feedback(7).ReadAsync(CancellationToken.None)).Status);
    });

    private RingFeedback Feedback(int address) =>
        new(_bus.First, new Channel("board", RegisterTable.InputRegister, address), new Ring(800), () => true);
}
