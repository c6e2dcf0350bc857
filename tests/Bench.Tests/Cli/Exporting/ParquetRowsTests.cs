using Bench.Cli.Exporting;
using Parquet;

namespace Bench.Tests.Cli.Exporting;

public sealed class ParquetRowsTests
{
    private static readonly ExportColumn[] Columns =
        [ExportColumn.Text("text"), ExportColumn.Whole("whole"), ExportColumn.Number("number"), ExportColumn.Flag("flag"), ExportColumn.Instant("at")];

    [Fact]
    public async Task Write_EveryKindAndNull_AreReadBackWithTheirTypes()
    {
        DateTimeOffset at = new(2026, 6, 30, 10, 0, 0, 250, TimeSpan.FromHours(2));
        await using ParquetReader reader = await Read([["=1+1", -3, 0.1, true, at], [null, null, null, null, null]]);

        Assert.Equal(Columns.Select(c => c.Name), reader.Schema.DataFields.Select(f => f.Name));
        Assert.Equal(
            [typeof(int), typeof(double), typeof(bool), typeof(DateTime)], reader.Schema.DataFields.Skip(1).Select(f => f.ClrType));
        Assert.All(reader.Schema.DataFields, f => Assert.True(f.IsNullable, f.Name));
        using ParquetRowGroupReader rows = reader.OpenRowGroupReader(0);
        DateTime?[] instants = new DateTime?[2];
        await rows.ReadAsync<DateTime>(reader.Schema.DataFields[4], instants, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal([at.UtcDateTime, null], instants);
        double?[] numbers = new double?[2];
        await rows.ReadAsync<double>(reader.Schema.DataFields[2], numbers, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal([0.1, null], numbers);
    }

    [Fact]
    public async Task Write_MoreRowsThanAGroup_HoldsOneGroupAtATime()
    {
        int given = 0;
        int taken = 0;
        IEnumerable<object?[]> Many()
        {
            for (int i = 0; i < 40_000; i++)
            {
                given++;
                yield return ["a", i, null, null, null];
            }
        }

        await using ParquetReader reader = await Read(Many());
        for (int group = 0; group < reader.RowGroupCount; group++)
        {
            using ParquetRowGroupReader rows = reader.OpenRowGroupReader(group);
            taken += checked((int)rows.RowCount);
        }

        Assert.Equal((40_000, 40_000, 3), (given, taken, reader.RowGroupCount));
    }

    [Fact]
    public async Task Write_NoRows_StillTellsTheColumnsAndTheTable()
    {
        await using ParquetReader reader = await Read([]);
        Assert.Equal(5, reader.Schema.DataFields.Length);
        Assert.Equal("runs", reader.CustomMetadata["bench.table"]);
        Assert.Equal(ParquetRows.SchemaVersion, reader.CustomMetadata["bench.schema_version"]);
    }

    private static async Task<ParquetReader> Read(IEnumerable<object?[]> rows)
    {
        MemoryStream stream = new();
        ParquetRows.Write(new ExportTable(Columns, rows), "runs", stream);
        return await ParquetReader.CreateAsync(new MemoryStream(stream.ToArray()), cancellationToken: TestContext.Current.CancellationToken);
    }
}
