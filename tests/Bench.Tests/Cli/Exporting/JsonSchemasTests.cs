using System.Text.Json;
using System.Text.Json.Nodes;
using Bench.Analysis.Comparing;
using Bench.Cli.Exporting;
using Bench.Cli.Output;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Tests.Model;
using Bench.Tests.Records;
using Bench.Tests.Reporting;
using Json.Schema;

namespace Bench.Tests.Cli.Exporting;

/// <summary>What is printed as JSON against the schemas in docs/schemas. The validator is JsonSchema.Net, an independent library.</summary>
public sealed class JsonSchemasTests
{
    private static readonly JsonSchema Export = JsonSchema.FromText(RepositoryFiles.Text("docs/schemas/export.schema.json"));

    private static readonly EvaluationOptions Strict = new() { RequireFormatValidation = true };

    [Fact]
    public void ExportSchema_EveryTableOfHealthyAndFaultyRuns_Passes()
    {
        foreach (SampleRun sample in (SampleRun[])[SampleRun.Healthy(), SampleRun.DeadSensors()])
        {
            SealedRun[] runs = [sample.Run];
            foreach (ExportTable table in (ExportTable[])[RunTables.Runs(runs), RunTables.Findings(runs), RunTables.Features(runs), RunTables.Moves(runs), RunTables.Samples(sample.Trace)])
            {
                Assert.True(Export.Evaluate(Element(Rows(table)), Strict).IsValid, table.Columns[2].Name);
            }
        }
    }

    [Theory]
    [InlineData("outcome", "\"passed\"")]
    [InlineData("simulated", "1")]
    [InlineData("started_at", "\"yesterday\"")]
    [InlineData("cause_probability", "1.5")]
    [InlineData("extra", "1")]
    public void ExportSchema_RowThatIsOtherwise_Fails(string key, string value)
    {
        JsonNode rows = Rows(RunTables.Runs([SampleRun.Healthy().Run]));
        rows[0]![key] = JsonNode.Parse(value);
        Assert.False(Export.Evaluate(Element(rows), Strict).IsValid);
    }

    [Fact]
    public void RunsSchema_SealedAndOpenRuns_Pass()
    {
        using DataFolder folder = new();
        using RecordStore store = folder.Open();
        RunWriting.Seal(store, SampleRuns.Start(1));
        using IRunJournal open = store.Begin(SampleRuns.Start(2));
        JsonSchema schema = JsonSchema.FromText(RepositoryFiles.Text("docs/schemas/runs.schema.json"));
        JsonNode listed = JsonNode.Parse(JsonSerializer.Serialize(store.List(), BenchJson.Indented))!;
        Assert.Equal(2, listed.AsArray().Count);
        Assert.True(schema.Evaluate(Element(listed), Strict).IsValid);
        listed[0]!["disposition"] = "good";
        Assert.False(schema.Evaluate(Element(listed), Strict).IsValid);
    }

    [Fact]
    public void CompareSchema_ComparisonsOfEveryKind_Pass()
    {
        JsonSchema schema = JsonSchema.FromText(RepositoryFiles.Text("docs/schemas/compare.schema.json"));
        SealedRun healthy = SampleRun.Healthy().Run;
        foreach (SampleRun other in (SampleRun[])[SampleRun.Healthy(), SampleRun.DeadSensors(), SampleRun.Held(), SampleRun.AbortedWithoutFeatures()])
        {
            JsonNode printed = Printed(ComparisonJson.Of(RunComparer.Compare(healthy, other.Run), null));
            Assert.True(schema.Evaluate(Element(printed), Strict).IsValid);
            printed["outcome"] = "fine";
            Assert.False(schema.Evaluate(Element(printed), Strict).IsValid);
        }
    }

    [Fact]
    public void ShowSchema_RunsOfEveryOutcome_Pass()
    {
        JsonSchema schema = JsonSchema.FromText(RepositoryFiles.Text("docs/schemas/show.schema.json"));
        foreach (SampleRun sample in (SampleRun[])[SampleRun.Healthy(), SampleRun.DeadSensors(), SampleRun.Held(), SampleRun.AbortedWithoutFeatures()])
        {
            JsonNode printed = Printed(RunJson.Of(sample.Run.Record) with { Entries = [] });
            Assert.True(schema.Evaluate(Element(printed), Strict).IsValid, sample.Run.Record.Outcome.ToString());
            printed["findings"]!.AsArray().Add(JsonNode.Parse("{}"));
            Assert.False(schema.Evaluate(Element(printed), Strict).IsValid);
        }
    }

    private static JsonNode Printed<T>(T document) => JsonNode.Parse(JsonSerializer.Serialize(document, BenchJson.Indented))!;

    private static JsonElement Element(JsonNode node) => JsonSerializer.SerializeToElement(node);

    private static JsonNode Rows(ExportTable table)
    {
        using StringWriter writer = new();
        JsonRows.Write(table, writer);
        return JsonNode.Parse(writer.ToString())!;
    }
}
