using System.Text.Json;
using Bench.Cli.Exporting;
using Bench.Tests.Reporting;

namespace Bench.Tests.Cli.Exporting;

public sealed class JsonRowsTests
{
    [Fact]
    public void Write_NoRows_IsAnEmptyArray()
    {
        Assert.Equal("[]\n", Json(new ExportTable([ExportColumn.Text("a")], [])));
    }

    [Fact]
    public void Write_MovesOfARun_AreOneObjectEachWithAllColumns()
    {
        SampleRun sample = SampleRun.DeadSensors();
        ExportTable table = RunTables.Moves([sample.Run]);
        using JsonDocument json = JsonDocument.Parse(Json(table));
        Assert.Equal(sample.Run.Record.Moves.Count, json.RootElement.GetArrayLength());
        Assert.All(json.RootElement.EnumerateArray(), row => Assert.Equal(table.Columns.Select(c => c.Name), row.EnumerateObject().Select(p => p.Name)));
        Assert.Equal(1, json.RootElement[0].GetProperty("move").GetInt32());
    }

    private static string Json(ExportTable table)
    {
        using StringWriter writer = new();
        JsonRows.Write(table, writer);
        return writer.ToString();
    }
}
