using System.Globalization;
using System.Text.Json;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.SystemTests.Cli;
using Bench.SystemTests.Devices.Peers;
using DuckDB.NET.Data;

namespace Bench.SystemTests.Exports;

/// <summary>Trace files and exports as programs of others read them: what they see is what the store holds.</summary>
public sealed class OtherReadersTests(StoredRuns stored) : IClassFixture<StoredRuns>
{
    /// <summary>DuckDB: an SQL engine with a Parquet reader of its own.</summary>
    [Fact]
    public void Trace_ReadByDuckDb_IsTheTraceSampleForSample()
    {
        (Trace trace, string file) = Stored();
        using DuckDBConnection duck = Open();
        using DuckDBCommand command = duck.CreateCommand();
        command.CommandText = $"SELECT time_s, drive, feedback, \"count\", current_a, voltage_v, \"index\" FROM read_parquet('{file}')";
        using DuckDBDataReader rows = command.ExecuteReader();
        int n = 0;
        while (rows.Read())
        {
            Sample sample = trace[n++];
            Assert.Equal(sample.TimeS, rows.GetDouble(0));
            Assert.Equal(((int)sample.Drive, (int)sample.Feedback, (int)sample.Index), (rows.GetByte(1), rows.GetByte(2), rows.GetByte(6)));
            Assert.Equal(sample.HasCount ? sample.Count : null, rows.IsDBNull(3) ? null : (int?)rows.GetInt32(3));
            Assert.Equal(sample.CurrentA, rows.IsDBNull(4) ? double.NaN : rows.GetDouble(4));
            Assert.Equal(sample.VoltageV, rows.IsDBNull(5) ? double.NaN : rows.GetDouble(5));
        }

        Assert.Equal(trace.Count, n);
    }

    /// <summary>Units and codes must be in the file itself: it may lie far from this program's documents.</summary>
    [Fact]
    public void Trace_ReadByDuckDb_TellsItsUnitsAndCodes()
    {
        using DuckDBConnection duck = Open();
        Dictionary<string, string> told = Rows(duck, $"SELECT decode(key), decode(value) FROM parquet_kv_metadata('{Stored().File}')")
            .ToDictionary(r => (string)r[0]!, r => (string)r[1]!);
        Assert.Equal("1", told["bench.schema_version"]);
        Assert.Equal(stored.Id, told["bench.run_id"]);
        Assert.Contains("current_a: amperes", told["bench.units"], StringComparison.Ordinal);
        Assert.StartsWith("0 off, 1 up, 2 down", told["bench.drive"], StringComparison.Ordinal);
        Assert.Contains("1 ok", told["bench.feedback"], StringComparison.Ordinal);
        Assert.Contains("2 closed", told["bench.index"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("runs")]
    [InlineData("findings")]
    [InlineData("features")]
    [InlineData("moves")]
    public async Task Table_ReadByDuckDb_IsTheJsonExportRowForRow(string table)
    {
        string file = stored.Folder.At($"{table}.parquet");
        (await stored.RunAsync("export", "--table", table, "--format", "parquet", "--out", file, "--force")).Said(0);
        JsonElement[] expected = [.. (await stored.RunAsync("export", "--table", table, "--json")).Said(0).Json().EnumerateArray()];
        using DuckDBConnection duck = Open();
        List<object?[]> read = Rows(duck, $"SELECT * FROM read_parquet('{file}')");

        Assert.Equal(expected.Length, read.Count);
        foreach ((JsonElement row, object?[] cells) in expected.Zip(read))
        {
            Assert.Equal(row.EnumerateObject().Select(p => Text(p.Value)), cells.Select(Text));
        }
    }

    /// <summary>What an analyst would ask: tables joined, over files alone.</summary>
    [Fact]
    public async Task Tables_JoinedByDuckDb_AnswerWhichFamilyDrawsWhat()
    {
        string runs = stored.Folder.At("all-runs.parquet");
        string features = stored.Folder.At("all-features.parquet");
        (await stored.RunAsync("export", "--format", "parquet", "--out", runs, "--force")).Said(0);
        (await stored.RunAsync("export", "--table", "features", "--format", "parquet", "--out", features, "--force")).Said(0);
        using DuckDBConnection duck = Open();
        List<object?[]> answer = Rows(duck, $"""
            SELECT family, count(*), avg(value), year(min(started_at)) FROM read_parquet('{features}') f JOIN read_parquet('{runs}') r USING (run)
            WHERE feature = 'current.running_a' GROUP BY family ORDER BY family
            """);
        Assert.Equal(["nutrient-diverter-4", "zone-selector-3"], answer.Select(r => (string)r[0]!));
        Assert.All(answer, r => Assert.InRange((double)r[2]!, 0.05, 0.5));
        Assert.All(answer, r => Assert.InRange(Convert.ToInt32(r[3], CultureInfo.InvariantCulture), 2020, 2200));
    }

    /// <summary>hyparquet: a Parquet reader in JavaScript, from npm.</summary>
    [Fact]
    public async Task Trace_ReadByJavaScript_HasTheSameSums()
    {
        string module = Path.Combine(Programs.RepositoryFolder.Root, ".artifacts", "peers", "node_modules", "hyparquet");
        Peer.Need("node");
        Assert.SkipUnless(Directory.Exists(module), "hyparquet is not installed on this machine; test.sh installs it where npm is");
        (int code, string printed) = await Peer.RunAsync("node", Script("read_trace.mjs"), Path.GetDirectoryName(module)!, Stored().File);
        Assert.True(code == 0, printed);
        Assert.Equal(Sums(), Numbers(printed));
    }

    [Fact]
    public async Task Trace_ReadByPandas_HasTheSameSums()
    {
        Peer.Need("python3");
        (int code, string printed) = await Peer.RunAsync("/usr/bin/python3", Script("read_trace.py"), Stored().File);
        Assert.SkipWhen(code == 77, $"pandas or a Parquet reader of its own (pyarrow, fastparquet) is not installed on this machine: {printed}");
        Assert.True(code == 0, printed);
        Assert.Equal(Sums(), Numbers(printed));
    }

    [Fact]
    public async Task Trace_ReadByR_HasTheSameSums()
    {
        Peer.Need("Rscript");
        (int code, string printed) = await Peer.RunAsync("Rscript", Script("read_trace.R"), Stored().File);
        Assert.SkipWhen(code == 77, "R has no Parquet reader on this machine (package nanoparquet or arrow)");
        Assert.True(code == 0, printed);
        Assert.Equal(Sums(), Numbers(printed));
    }

    /// <summary>The same trace as CSV, for programs that read no Parquet.</summary>
    [Theory]
    [InlineData("/usr/bin/python3", "read_trace.py")]
    [InlineData("Rscript", "read_trace.R")]
    public async Task TraceAsCsv_ReadByPandasAndR_HasTheSameSums(string program, string script)
    {
        Peer.Need(program);
        string file = stored.Folder.At($"{script}.csv");
        (await stored.RunAsync("export", stored.Id, "--table", "trace", "--out", file)).Said(0);
        (int code, string printed) = await Peer.RunAsync(program, Script(script), file);
        Assert.SkipWhen(code == 77, $"pandas is not installed on this machine: {printed}");
        Assert.True(code == 0, printed);
        Assert.Equal(Sums(), Numbers(printed));
    }

    /// <summary>openpyxl: a reader of workbooks in Python; Python's csv module reads the same table.</summary>
    [Fact]
    public async Task Findings_ReadByPython_AreTheSameFromWorkbookAndCsv()
    {
        Peer.Need("python3");
        string sheet = stored.Folder.At("findings.xlsx");
        string csv = stored.Folder.At("findings.csv");
        (await stored.RunAsync("export", "--table", "findings", "--format", "xlsx", "--out", sheet)).Said(0);
        (await stored.RunAsync("export", "--table", "findings", "--out", csv)).Said(0);
        int rows = (await stored.RunAsync("export", "--table", "findings", "--json")).Said(0).Json().GetArrayLength();
        (int code, string printed) = await Peer.RunAsync("/usr/bin/python3", "-W", "ignore", Script("read_tables.py"), sheet, csv);
        Assert.SkipWhen(code == 77, $"openpyxl is not installed on this machine: {printed}");
        Assert.True(code == 0, printed);
        Assert.Equal($"{rows} rows alike", printed.Trim());
    }

    private static string Script(string name) => Programs.RepositoryFolder.At("tests", "Bench.SystemTests", "Exports", "Readers", name);

    private static DuckDBConnection Open()
    {
        DuckDBConnection duck = new("DataSource=:memory:");
        duck.Open();
        using DuckDBCommand threads = duck.CreateCommand();
        threads.CommandText = "SET threads = 1";
        threads.ExecuteNonQuery();
        return duck;
    }

    private static List<object?[]> Rows(DuckDBConnection duck, string sql)
    {
        using DuckDBCommand command = duck.CreateCommand();
        command.CommandText = sql;
        using DuckDBDataReader reader = command.ExecuteReader();
        List<object?[]> rows = [];
        while (reader.Read())
        {
            rows.Add([.. Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? null : reader.GetValue(i))]);
        }

        return rows;
    }

    private (Trace Trace, string File) Stored()
    {
        using RecordStore store = RecordStore.Open(stored.Folder.At("data"), TimeProvider.System);
        SealedRun run = store.Find(stored.Id)!;
        return (store.LoadTrace(run), Path.Combine(store.Folder, run.TraceFile!));
    }

    /// <summary>Rows, sum of times, counts read, their sum, currents read, their sum.</summary>
    private double[] Sums()
    {
        Trace trace = Stored().Trace;
        double[] sums = new double[6];
        foreach (ref readonly Sample sample in trace.All)
        {
            sums[0]++;
            sums[1] += sample.TimeS;
            sums[2] += sample.HasCount ? 1 : 0;
            sums[3] += sample.HasCount ? sample.Count : 0;
            sums[4] += double.IsNaN(sample.CurrentA) ? 0 : 1;
            sums[5] += double.IsNaN(sample.CurrentA) ? 0 : sample.CurrentA;
        }

        return [.. sums.Select(s => Math.Round(s, 6))];
    }

    private static double[] Numbers(string printed) =>
        [.. printed.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(t => Math.Round(double.Parse(t, CultureInfo.InvariantCulture), 6))];

    private static string Text(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => "null",
        JsonValueKind.String when value.TryGetDateTimeOffset(out DateTimeOffset at) && value.GetString()!.EndsWith('Z') => Micros(at.UtcDateTime),
        JsonValueKind.String => value.GetString()!,
        JsonValueKind.Number => value.GetDouble().ToString("R", CultureInfo.InvariantCulture),
        _ => value.GetBoolean() ? "true" : "false",
    };

    private static string Text(object? cell) => cell switch
    {
        null => "null",
        bool yes => yes ? "true" : "false",
        DateTime at => Micros(at),
        string text => text,
        _ => Convert.ToDouble(cell, CultureInfo.InvariantCulture).ToString("R", CultureInfo.InvariantCulture),
    };

    private static string Micros(DateTime at) => at.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff", CultureInfo.InvariantCulture);
}
