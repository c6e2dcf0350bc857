using Bench.Model.Instruments;
using Bench.Model.Traces;
using Bench.Records.Traces;
using CsCheck;
using Parquet;
using Parquet.Schema;

namespace Bench.Tests.Records.Traces;

public class TraceFileTests
{
    private static readonly Guid Run = Guid.Parse("0190a5b4-0000-7000-8000-000000000001");

    [Fact]
    public void Encode_AnyTrace_ReadsBackTheSame() =>
        Gen.Select(Gen.Double[0, 1e6], Gen.Int[0, 3], Gen.Int[0, 6], Gen.Int[-1, 65535], Gen.Double[-10, 10], Gen.Bool, Gen.Int[0, 2])
            .Select(t => new Sample(t.Item1, (DriveState)t.Item2, (FeedbackStatus)t.Item3, t.Item4, t.Item6 ? t.Item5 : double.NaN, t.Item6 ? 24 - t.Item5 : double.NaN, (IndexState)t.Item7))
            .Array[1, 300].Sample(samples =>
            {
                Trace trace = new();
                foreach (Sample sample in samples)
                {
                    trace.Add(sample);
                }

                Assert.Equal(samples, TraceFile.Decode(TraceFile.Encode(Run, trace)).All.ToArray());
            }, iter: 50);

    [Fact]
    public void Encode_SameTraceTwice_GivesTheSameBytes() =>
        Assert.Equal(TraceFile.Encode(Run, SampleRuns.Trace(5000)), TraceFile.Encode(Run, SampleRuns.Trace(5000)));

    [Theory]
    [InlineData(99, 11)]
    [InlineData(100, 10)]
    [InlineData(1000, 1)]
    [InlineData(2000, 1)]
    public async Task Encode_LongTrace_GoesInGroupsAndReadsBackTheSame(int rowsPerGroup, int groups)
    {
        byte[] file = TraceFile.Encode(Run, SampleRuns.Trace(1000), rowsPerGroup);
        await using ParquetReader reader = await ParquetReader.CreateAsync(new MemoryStream(file), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(groups, reader.RowGroupCount);
        Assert.Equal(SampleRuns.Trace(1000).All.ToArray(), TraceFile.Decode(file).All.ToArray());
    }

    [Fact]
    public async Task Encode_MetersAndCountNotSampled_AreNullAndNeverNaN()
    {
        using MemoryStream stream = new(TraceFile.Encode(Run, SampleRuns.Trace(1000)));
        await using ParquetReader reader = await ParquetReader.CreateAsync(stream, cancellationToken: TestContext.Current.CancellationToken);
        using ParquetRowGroupReader rows = reader.OpenRowGroupReader(0);
        foreach (string name in (string[])["current_a", "voltage_v"])
        {
            double?[] values = new double?[1000];
            await rows.ReadAsync<double>(Field(reader, name), values, cancellationToken: TestContext.Current.CancellationToken);
            Assert.Equal(666, values.Count(v => v is null));
            Assert.All(values, v => Assert.True(v is null || double.IsFinite(v.Value)));
        }

        int?[] counts = new int?[1000];
        await rows.ReadAsync<int>(Field(reader, "count"), counts, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(10, counts.Count(c => c is null));
        Assert.DoesNotContain(-1, counts.OfType<int>());
    }

    [Fact]
    public async Task Encode_File_SaysWhatItHolds()
    {
        using MemoryStream stream = new(TraceFile.Encode(Run, SampleRuns.Trace(3)));
        await using ParquetReader reader = await ParquetReader.CreateAsync(stream, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal("1", reader.CustomMetadata["bench.schema_version"]);
        Assert.Equal("0190a5b4-0000-7000-8000-000000000001", reader.CustomMetadata["bench.run_id"]);
        Assert.Equal("0 off, 1 up, 2 down, 3 both", reader.CustomMetadata["bench.drive"]);
        Assert.Contains("current_a: amperes", reader.CustomMetadata["bench.units"], StringComparison.Ordinal);
        Assert.Equal(["time_s", "drive", "feedback", "count", "current_a", "voltage_v", "index"], reader.Schema.GetDataFields().Select(f => f.Name));
    }

    [Theory]
    [InlineData(double.NaN, 0.0)]
    [InlineData(0.0, double.PositiveInfinity)]
    public void Encode_SampleThatIsNone_IsRefused(double time, double current)
    {
        Trace trace = new();
        trace.Add(new Sample(time, DriveState.Off, FeedbackStatus.NotSampled, -1, current, 24, IndexState.NotSampled));
        Assert.Throws<ArgumentException>(() => TraceFile.Encode(Run, trace));
    }

    [Fact]
    public void Decode_BytesOfSomethingElse_IsRefused() =>
        Assert.Throws<FormatException>(() => TraceFile.Decode("this is no Parquet file"u8.ToArray()));

    [Fact]
    public void Decode_FileCutShort_IsRefused() =>
        Assert.Throws<FormatException>(() => TraceFile.Decode(TraceFile.Encode(Run, SampleRuns.Trace(100))[..^5]));

    private static DataField Field(ParquetReader reader, string name) => reader.Schema.GetDataFields().Single(f => f.Name == name);
}
