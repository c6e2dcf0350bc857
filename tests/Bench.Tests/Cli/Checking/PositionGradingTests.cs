using Bench.Cli.Checking;
using Bench.Model.Features;
using Bench.Running.Sampling;
using Bench.Tests.Running;

namespace Bench.Tests.Cli.Checking;

public class PositionGradingTests
{
    [Fact]
    public void Of_UsualBus_IsGood() => Assert.Equal(Grade.Good, PositionGrading.Of(Polling(136, 45), VirtualRun.Diverter)!.Grade);

    [Fact]
    public void Of_SlowerAndSlower_IsUsableThenPoor()
    {
        double least = Bench.Analysis.Sightings.SightingPlan.LeastRateHz(VirtualRun.Diverter)!.Value;
        Assert.Equal(Grade.Usable, PositionGrading.Of(Polling(1.2 * least, 45), VirtualRun.Diverter)!.Grade);
        Graded poor = PositionGrading.Of(Polling(0.8 * least, 45), VirtualRun.Diverter)!;
        Assert.Equal(Grade.Poor, poor.Grade);
        Assert.Contains("units will be held", poor.Reasons[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ReadingsLaterThanTheProfileWaits_IsFailing()
    {
        RehearsedPolling late = Polling(136, 45);
        late = late with { Times = late.Times with { Position = late.Times.Position with { P99IntervalS = 0.13, WorstIntervalS = 0.2 } } };
        Assert.Equal(Grade.Failing, PositionGrading.Of(late, VirtualRun.Diverter)!.Grade);
    }

    [Fact]
    public void Of_MetersTooSeldom_IsPoorWithoutAProfileToo() =>
        Assert.Equal(Grade.Poor, PositionGrading.Of(Polling(136, 19), null)!.Grade);

    [Fact]
    public void Of_FeedbackSilent_IsNotMeasured() => Assert.Null(PositionGrading.Of(Polling(0, 45), VirtualRun.Diverter));

    private static RehearsedPolling Polling(double positionHz, double meterHz) => new(
        "bay-1",
        1000,
        10,
        new SamplingTimes
        {
            Position = new ReadingTimes { Readings = (int)(10 * positionHz), MedianIntervalS = 0.007, P99IntervalS = 0.01, WorstIntervalS = 0.02 },
            Meters = new ReadingTimes { Readings = (int)(10 * meterHz) },
        });
}
