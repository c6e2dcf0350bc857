using System.Text.Json.Nodes;
using Bench.Analysis.Readings;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Readings;

public class ReadingIntervalsTests
{
    // 100 intervals of 7 ms and one of 50: by nearest rank the 99th percentile of 101 is the 100th, the worst the 101st.
    [Fact]
    public void Times_OneReadingLate_IsTheWorstAndNotTheUsual()
    {
        List<Sample> samples = [];
        double at = 1;
        for (int i = 0; i <= 101; i++)
        {
            samples.Add(Position(at));
            at += i == 60 ? 0.050 : 0.007;
        }

        ReadingTimes position = Of(samples, 1, at).Position;

        Assert.Equal(102, position.Readings);
        Assert.Equal(0.007, position.MedianIntervalS!.Value, 0.007 / 8000);
        Assert.Equal(0.007, position.P99IntervalS!.Value, 0.007 / 8000);
        Assert.Equal(0.050, position.WorstIntervalS!.Value, 1e-9);
    }

    [Fact]
    public void Times_ReadingLost_CountsTheWholeTimeWithout()
    {
        SamplingTimes times = Of([Position(0), Position(0.01, FeedbackStatus.Silent), Position(0.02)], 0, 1);
        Assert.Equal((2, 0.02), (times.Position.Readings, times.Position.WorstIntervalS));
    }

    [Fact]
    public void Times_BeforeAndAfterTheDriveWasOn_DoNotCount()
    {
        SamplingTimes times = Of([Position(0), Meters(0.1), Position(1.00), Meters(1.005), Position(1.01), Meters(1.03), Position(3), Meters(9)], 1, 2);
        Assert.Equal((2, 2), (times.Position.Readings, times.Meters.Readings));
        Assert.Equal(0.025, times.Meters.WorstIntervalS!.Value, 1e-9);
    }

    [Fact]
    public void Times_NothingRead_HasNoInterval()
    {
        SamplingTimes times = Of([], 0, 1);
        Assert.Equal((0, null, null), (times.Position.Readings, times.Position.MedianIntervalS, times.Position.InstantHalfWidthS));
    }

    [Fact]
    public void Times_HalfWidthsKept_SayHowWellInstantsAreKnown()
    {
        InstantHalfWidths instants = new();
        for (int i = 1; i <= 200; i++)
        {
            instants.Position.Add(i * 1e-6);
        }

        Assert.Equal(198e-6, new ReadingIntervals().Times(instants).Position.InstantHalfWidthS);
    }

    [Fact]
    public void Features_StoredBeforeThereWereTimes_StillLoad()
    {
        RunFeatures features = SyntheticRun.Extract(new SyntheticUnit(Diverter.Profile, 1).WholeRoutine()).Features;
        Assert.InRange(features.Sampling!.Position.MedianIntervalS!.Value, 0.005, 0.010);
        JsonObject stored = System.Text.Json.JsonSerializer.SerializeToNode(features, Bench.Model.Serialization.BenchJson.Compact)!.AsObject();
        Assert.True(stored.Remove("sampling"));
        RunFeatures loaded = System.Text.Json.JsonSerializer.Deserialize<RunFeatures>(stored.ToJsonString(), Bench.Model.Serialization.BenchJson.Compact)!;
        Assert.Null(loaded.Sampling);
        Assert.Equal(features.PositionRateHz, loaded.PositionRateHz);
    }

    private static SamplingTimes Of(List<Sample> samples, double fromS, double toS)
    {
        ReadingIntervals intervals = new();
        intervals.Add(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(samples), fromS, toS);
        return intervals.Times(null);
    }

    private static Sample Position(double timeS, FeedbackStatus status = FeedbackStatus.Ok) =>
        new(timeS, DriveState.Up, status, status == FeedbackStatus.Ok ? 5 : -1, double.NaN, double.NaN, IndexState.NotSampled);

    private static Sample Meters(double timeS) =>
        new(timeS, DriveState.Up, FeedbackStatus.NotSampled, -1, 0.2, 24, IndexState.Open);
}
