using System.Text.Json;
using System.Text.Json.Nodes;
using Bench.Analysis.Sequential;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Tests.Running;

namespace Bench.Tests.Model.Runs;

public class RunRecordTests
{
    [Fact]
    public void Plan_OfARun_IsThatOfItsProfileAndReadsBack()
    {
        RunRecord record = new VirtualRun(VirtualRun.Short).Execute();
        RunRecord again = JsonSerializer.Deserialize<RunRecord>(JsonSerializer.Serialize(record, BenchJson.Compact), BenchJson.Compact)!;
        Assert.Equal(DemonstrationPlanning.Of(record.Start.Profile.Demonstration).Points, again.Plan!.Points);
        Assert.Contains(record.Events, e => e.Text == PlanLine.Of(again.Plan));
    }

    [Fact]
    public void Plan_RecordFromBeforeThereWasOne_ReadsWithoutIt()
    {
        JsonObject old = JsonSerializer.SerializeToNode(new VirtualRun(VirtualRun.Short).Execute(), BenchJson.Compact)!.AsObject();
        Assert.True(old.Remove("plan"));
        Assert.Null(old.Deserialize<RunRecord>(BenchJson.Compact)!.Plan);
    }
}
