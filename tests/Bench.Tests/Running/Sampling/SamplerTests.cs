using Bench.Model.Instruments;
using Bench.Model.Traces;
using Bench.Running;
using Bench.Running.Sampling;
using Bench.Simulation.Time;
using NSubstitute;

namespace Bench.Tests.Running.Sampling;

public class SamplerTests
{
    [Fact]
    public void Slot_LinkAnswersAtOnce_IsReadAtAPaceThatALineCanBeDrawnThrough()
    {
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        IUnitPosition unit = Substitute.For<IUnitPosition>();
        PromptUnit prompt = new(time);
        unit.Feedback.Returns(prompt);
        unit.Meters.Returns(prompt);
        Trace trace = new();
        time.Run(async () =>
        {
            Sampler sampler = new(unit, new RunClock(time), trace, new MemoryJournal());
            for (int i = 0; i < 11; i++)
            {
                await sampler.SlotAsync(TestContext.Current.CancellationToken);
            }
        });

        double[] read = [.. trace.Slice(0, trace.Count).ToArray().Where(s => s.HasCount).Select(s => s.TimeS)];
        Assert.Equal(11, read.Length);
        Assert.Equal(0.04, read[^1] - read[0], 5); // within the clock's ticks
    }

    private sealed class PromptUnit(TimeProvider time) : IFeedback, IMeters
    {
        ValueTask<FeedbackReading> IFeedback.ReadAsync(CancellationToken cancel) =>
            new(new FeedbackReading(FeedbackStatus.Ok, 5, time.GetTimestamp(), 0));

        ValueTask<MeterReading> IMeters.ReadAsync(CancellationToken cancel) =>
            new(new MeterReading(null, 0.2, 24, false, false, time.GetTimestamp()));
    }
}
