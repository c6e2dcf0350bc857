using Bench.Model.Instruments;
using Bench.Model.Traces;
using Bench.Records.Journals;

namespace Bench.Tests.Records.Journals;

public class SampleChunkTests
{
    [Fact]
    public void Encode_ManySamples_ReadBackTheSame()
    {
        Trace trace = SampleRuns.Trace(1000);
        Trace back = new();
        SampleChunk.Decode(SampleChunk.Encode(trace.All), back);
        Assert.Equal(trace.All.ToArray(), back.All.ToArray());
    }

    [Fact]
    public void Encode_OneSampleOfEachKind_HasTheDocumentedBytes()
    {
        Sample[] samples =
        [
            new(1.0, DriveState.Up, FeedbackStatus.Ok, 258, double.NaN, double.NaN, IndexState.NotSampled),
            new(2.0, DriveState.Off, FeedbackStatus.NotSampled, -1, 0.5, 24.0, IndexState.Closed),
        ];

        // Worked by hand from docs/records.md; 1.0 is 3ff0..., 2.0 4000..., 0.5 3fe0..., 24.0 4038... (IEEE 754).
        Assert.Equal(
            "01" + "01" + "01" + "000000000000F03F" + "02010000"
            + "38" + "00" + "0000000000000040" + "FFFFFFFF" + "000000000000E03F" + "0000000000003840",
            Convert.ToHexString(SampleChunk.Encode(samples)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("02")]
    [InlineData("0101")]
    [InlineData("0138000000000000000040FFFFFFFF")]
    public void Decode_BytesThatAreNoChunk_IsRefused(string bytes) =>
        Assert.Throws<FormatException>(() => SampleChunk.Decode(Convert.FromHexString(bytes), new Trace()));
}
