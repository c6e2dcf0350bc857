using System.Text.Json;
using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;

namespace Bench.Tests.Running;

public class TestRunDeterminismTests
{
    [Theory]
    [InlineData("healthy")]
    [InlineData("noisy-link")]
    [InlineData("intermittent-connector")]
    public void Run_SameSeedTwice_IsTheSameToTheByte(string condition)
    {
        Assert.Equal(Once(condition, 7), Once(condition, 7));
    }

    [Fact]
    public void Run_OtherSeed_IsAnotherUnit() => Assert.NotEqual(Once("healthy", 7), Once("healthy", 8));

    [Fact]
    public void Run_InVirtualTime_TakesNoWorkFromOtherThreads()
    {
        VirtualRun run = new(VirtualRun.Short);
        run.Execute();
        Assert.Equal(0, run.Time.PostsFromOtherThreads);
    }

    [Fact]
    public void Extraction_RepeatedOnTheStoredRun_GivesTheSameFeatures()
    {
        VirtualRun run = new(VirtualRun.Short);
        RunRecord record = run.Execute();
        Trace trace = new();
        run.Journal.Samples.ForEach(s => trace.Add(s));
        RunExtraction again = new(record.Start.Profile, record.Start.Bench);
        foreach (Move move in record.Moves)
        {
            again.AddMove(trace, move);
        }

        RunFeatures features = again.Complete(trace, record.Features!.Links, DateOnly.FromDateTime(record.EndedAt.UtcDateTime));
        Assert.Equal(Json(WithoutInstants(record.Features)), Json(features));
    }

    // How well instants are known is not in the trace, and nothing is judged by it.
    private static RunFeatures WithoutInstants(RunFeatures features) => features with
    {
        Sampling = new SamplingTimes
        {
            Position = features.Sampling!.Position with { InstantHalfWidthS = null },
            Meters = features.Sampling.Meters with { InstantHalfWidthS = null },
        },
    };

    private static string Once(string condition, ulong seed)
    {
        VirtualRun run = new(VirtualRun.Short, condition, seed);
        RunRecord record = run.Execute();
        return Json(record) + JsonSerializer.Serialize(run.Journal.Samples.Select(s => s.ToString()));
    }

    private static string Json<T>(T value) => JsonSerializer.Serialize(value, BenchJson.Compact);
}
