using Bench.Cli.Exporting;
using Bench.Tests.Reporting;

namespace Bench.Tests.Cli.Exporting;

public sealed class RunTablesTests
{
    [Fact]
    public void EveryTable_OfARun_HasACellForEachColumn()
    {
        SampleRun sample = SampleRun.DeadSensors();
        ExportTable[] tables =
        [
            RunTables.Runs([sample.Run]), RunTables.Findings([sample.Run]), RunTables.Features([sample.Run]), RunTables.Moves([sample.Run]), RunTables.Samples(sample.Trace),
        ];
        Assert.All(tables, table => Assert.NotEmpty(table.Rows));
        Assert.All(tables, table => Assert.All(table.Rows, row => Assert.Equal(table.Columns.Count, row.Length)));
        Assert.All(tables, table => Assert.All(table.Rows, row => Assert.All(row.Zip(table.Columns), cell => Assert.True(IsOf(cell.Second.Kind, cell.First), cell.Second.Name))));
    }

    [Fact]
    public void Samples_WithoutReadings_AreNullAndNeverNaN()
    {
        Assert.All(RunTables.Samples(SampleRun.Healthy().Trace).Rows, row => Assert.All(row, cell => Assert.False(cell is double.NaN or -1)));
    }

    [Fact]
    public void Runs_OfARepairableUnit_SayVerdictAndHash()
    {
        SampleRun sample = SampleRun.DeadSensors();
        ExportTable table = RunTables.Runs([sample.Run]);
        object?[] row = Assert.Single(table.Rows);
        Assert.Equal("repairable", row[At(table, "disposition")]);
        Assert.Equal(sample.Run.Hash, row[At(table, "hash")]);
    }

    private static int At(ExportTable table, string column) => table.Columns.Select(c => c.Name).ToList().IndexOf(column);

    private static bool IsOf(CellKind kind, object? cell) => cell is null || kind switch
    {
        CellKind.Whole => cell is int,
        CellKind.Number => cell is double and not double.NaN,
        CellKind.Flag => cell is bool,
        CellKind.Instant => cell is DateTimeOffset,
        _ => cell is string,
    };
}
