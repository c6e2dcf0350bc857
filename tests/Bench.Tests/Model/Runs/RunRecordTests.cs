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
        Assert.Equal(TestPlan.Of(record.Start.Profile.Demonstration), again.Features!.Demonstration.Plan);
    }

    [Fact]
    public void Plan_RecordFromBeforeThereWasOne_ReadsWithoutIt()
    {
        JsonObject old = JsonSerializer.SerializeToNode(new VirtualRun(VirtualRun.Short).Execute(), BenchJson.Compact)!.AsObject();
        Assert.True(old["features"]!["demonstration"]!.AsObject().Remove("plan"));
        Assert.Empty(old.Deserialize<RunRecord>(BenchJson.Compact)!.Features!.Demonstration.Plan);
    }
}
