using System.Text;
using Bench.Devices.Lines;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Lines;

public sealed class LineClientTests : IAsyncDisposable
{
    private readonly SteppedTime _time = new();
    private readonly ScriptedLink _link;

    public LineClientTests()
    {
        _link = new ScriptedLink(_time, TimeSpan.FromMilliseconds(0.1));
    }

    public ValueTask DisposeAsync() => _link.DisposeAsync();

    [Fact]
    public void Exchange_AnswerInPieces_IsPutTogetherAndTimed() => _time.Run(async () =>
    {
        _link.Far = _ => [(Ms(3), Bytes("+2.")), (Ms(4), Bytes("5\r")), (Ms(5), Bytes("\n"))];
        LineResult result = await AskAsync("READ?");
        Assert.Equal((null, "+2.5"), (result.Fault, result.Text));

        // Sent in 0.6 ms; the answer's 6 characters began 0.6 ms before 5 ms: acted at 2.5 ms, give or take 1.9 ms.
        Assert.InRange(result.At, 24_995, 25_005);
        Assert.Equal(0.0019, result.AtUncertainty, 1e-6);
        Assert.Equal(Ms(5), result.RoundTrip);
    });

    [Fact]
    public void Exchange_LeftOversBefore_AreNoAnswer() => _time.Run(async () =>
    {
        _link.Far = _ => [(Ms(1), Bytes("\r\n")), (Ms(2), Bytes("7\r\n"))];
        Assert.Equal("7", (await AskAsync("READ?")).Text);
    });

    [Theory]
    [InlineData(null, DeviceFaultKind.Silent)]
    [InlineData("half", DeviceFaultKind.Garbled)]
    [InlineData("\u0081\u00ff7\n", DeviceFaultKind.Garbled)]
    public void Exchange_NoWholeLine_SaysHow(string? arriving, DeviceFaultKind expected) => _time.Run(async () =>
    {
        _link.Far = _ => arriving is null ? [] : [(Ms(2), Encoding.Latin1.GetBytes(arriving))];
        Assert.Equal(expected, (await AskAsync("READ?")).Fault);
    });

    [Fact]
    public void Exchange_LineWithoutEnd_IsGarbledAndEnds() => _time.Run(async () =>
    {
        _link.Far = _ => [(Ms(2), new byte[2 * LineClient.MostLineBytes])];
        Assert.Equal(DeviceFaultKind.Garbled, (await AskAsync("READ?")).Fault);
    });

    [Fact]
    public void Exchange_LinkGone_IsLinkLost() => _time.Run(async () =>
    {
        _link.Gone = true;
        Assert.Equal(DeviceFaultKind.LinkLost, (await AskAsync("READ?")).Fault);
    });

    private static TimeSpan Ms(double ms) => TimeSpan.FromMilliseconds(ms);

    private static byte[] Bytes(string text) => Encoding.ASCII.GetBytes(text);

    private async Task<LineResult> AskAsync(string message)
    {
        await using LineClient client = new(_link, _time);
        return await client.ExchangeAsync(message, "\n", answered: true, Ms(40), CancellationToken.None);
    }
}
