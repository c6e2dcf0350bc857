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

    [Theory]
    [InlineData(RegisterType.Uint32, WordOrder.HighFirst, 0, 700, FeedbackStatus.Ok)]
    [InlineData(RegisterType.Uint32, WordOrder.LowFirst, 700, 0, FeedbackStatus.Ok)]
    [InlineData(RegisterType.Int32, WordOrder.HighFirst, 0xFFFF, 0xFFFF, FeedbackStatus.OutOfRange)] // -1
    [InlineData(RegisterType.Float32, WordOrder.HighFirst, 0x442F, 0x0000, FeedbackStatus.Ok)] // 700.0
    [InlineData(RegisterType.Float32, WordOrder.HighFirst, 0x442F, 0x2000, FeedbackStatus.Garbled)] // 700.5
    [InlineData(RegisterType.Float32, WordOrder.HighFirst, 0x7FC0, 0x0000, FeedbackStatus.Garbled)] // not a number
    public void Read_TwoRegisters_AreOneCount(RegisterType type, WordOrder words, int first, int second, FeedbackStatus expected) => _time.Run(async () =>
    {
        (_bus.Registers[7], _bus.Registers[8]) = (first, second);
        FeedbackReading reading = await Feedback(7, type, words).ReadAsync(CancellationToken.None);
        Assert.Equal((expected, expected == FeedbackStatus.Ok ? 700 : 0), (reading.Status, reading.Count));
        Assert.Equal(expected == FeedbackStatus.Garbled ? 1 : 0, _bus.First.Counts.Garbled);
    });

    private RingFeedback Feedback(int address, RegisterType type = RegisterType.Uint16, WordOrder words = WordOrder.HighFirst) =>
        new(_bus.First, new Channel("board", RegisterTable.InputRegister, address) { Type = type, Words = words }, new Ring(800), () => true);
}
