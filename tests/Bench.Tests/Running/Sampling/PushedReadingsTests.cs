using Bench.Model.Instruments;
using Bench.Model.Traces;
using Bench.Running;
using Bench.Running.Sampling;
using Bench.Simulation.Time;
using NSubstitute;

namespace Bench.Tests.Running.Sampling;

/// <summary>A current that is pushed every millisecond and delivered late, beside a position that is polled.</summary>
public class PushedReadingsTests
{
    [Fact]
    public void Slot_CurrentIsPushedInBatches_EveryReadingIsInTheTraceInOrder() => On(async (sampler, trace, time, pushed) =>
    {
        for (int i = 0; i < 200; i++)
        {
            await sampler.SlotAsync(default);
        }

        sampler.Flush();
        Sample[] rows = trace.All.ToArray();
        double[] metered = [.. rows.Where(s => s.HasMeters).Select(s => s.TimeS)];
        Assert.Equal(rows.Select(s => s.TimeS).Order(), rows.Select(s => s.TimeS));
        Assert.InRange(metered.Length, 760, 830);
        Assert.All(metered.Zip(metered.Skip(1)), t => Assert.Equal(0.001, t.Second - t.First, 4));
        Assert.Equal(200, rows.Count(s => s.HasCount));
        Assert.InRange(rows.Count(s => s.Index != IndexState.NotSampled), 45, 67); // every third slot, on a row of its time
        Assert.True(sampler.HalfWidths.Meters.Count == 0); // the drive was off
    });

    [Fact]
    public void Slot_OneReadingIsHighBetweenTwoSlots_IsThePeak() => On(async (sampler, _, time, pushed) =>
    {
        for (int i = 0; i < 10; i++)
        {
            await sampler.SlotAsync(default);
        }

        pushed.SpikeA = 9;
        double most = 0;
        for (int i = 0; i < 10; i++)
        {
            await sampler.SlotAsync(default);
            most = Math.Max(most, sampler.PeakCurrentA);
        }

        Assert.Equal(9, most);
        Assert.True(sampler.PeakCurrentA < 1); // it is over
        Assert.Equal(0.2, sampler.Meters.CurrentA, 6);
    });

    [Fact]
    public void Drive_SwitchedOff_ReadingsTakenBeforeBearWhatItWas() => On(async (sampler, trace, time, pushed) =>
    {
        sampler.Drive = DriveState.Up;
        for (int i = 0; i < 20; i++)
        {
            await sampler.SlotAsync(default);
        }

        double offS = time.Elapsed.TotalSeconds;
        sampler.Drive = DriveState.Off;
        for (int i = 0; i < 20; i++)
        {
            await sampler.SlotAsync(default);
        }

        sampler.Flush();
        Assert.All(trace.All.ToArray().Where(s => s.HasMeters), s => Assert.Equal(s.TimeS < offS ? DriveState.Up : DriveState.Off, s.Drive));
    });

    private static void On(Func<Sampler, Trace, VirtualTime, PushedUnit, Task> test)
    {
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        IUnitPosition unit = Substitute.For<IUnitPosition>();
        PushedUnit pushed = new(time);
        unit.Feedback.Returns(pushed);
        unit.Meters.Returns(pushed);
        Trace trace = new();
        time.Run(() => test(new Sampler(unit, new RunClock(time), trace, new MemoryJournal()), trace, time, pushed));
    }

    /// <summary>Readings of each millisecond, delivered together every 16 ms.</summary>
    private sealed class PushedUnit(VirtualTime time) : IFeedback, IMeters, IPushedReadings<MeterReading>
    {
        private const int BatchMs = 16;

        private int _next = -1;

        public double? SpikeA { get; set; }

        private int Arrived => (int)(time.Elapsed.TotalMilliseconds / BatchMs) * BatchMs;

        ValueTask<FeedbackReading> IFeedback.ReadAsync(CancellationToken cancel) =>
            new(new FeedbackReading(FeedbackStatus.Ok, 5, time.GetTimestamp(), 0));

        async ValueTask<MeterReading> IMeters.ReadAsync(CancellationToken cancel)
        {
            while (Arrived == 0)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(1), time, cancel);
            }

            _next = _next < 0 ? Arrived : _next;
            return Reading(Arrived) with { At = time.GetTimestamp() }; // of what was polled beside it
        }

        bool IPushedReadings<MeterReading>.TryTake(out MeterReading reading)
        {
            bool there = _next >= 0 && _next <= Arrived;
            reading = there ? Reading(_next) : default;
            if (there)
            {
                reading = reading with { CurrentA = SpikeA ?? reading.CurrentA, Index = null };
                SpikeA = null;
                _next++;
            }

            return there;
        }

        private static MeterReading Reading(int ms) => new(null, 0.2, 24, false, null, ms * TimeSpan.TicksPerMillisecond, 0.0005);
    }
}
