using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Links;

public class ReopeningLinkTests : ILinkOpener
{
    private static readonly byte[] Bytes = [1, 2, 3];
    private readonly SteppedTime _time = new();
    private readonly List<ScriptedLink> _opened = [];
    private int _tries;
    private bool _there = true;

    [Fact]
    public async Task Write_FindsTheLinkGone_OpensItAndIsNeverSent()
    {
        await using ReopeningLink link = await OpenAsync();
        CancellationToken until = link.UntilLost;
        _opened[0].Gone = true;
        await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
        Assert.True(_opened[0].Disposed);
        Assert.True(until.IsCancellationRequested);

        // This one was decided on while the link was gone: it opens, and is not sent.
        await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
        Assert.Equal(2, _opened.Count);
        Assert.Empty(_opened[1].Sent);

        await WriteAsync(link);
        Assert.Equal(Bytes, Assert.Single(_opened[1].Sent));
        Assert.True(until.IsCancellationRequested);
        Assert.False(link.UntilLost.IsCancellationRequested);
    }

    [Fact]
    public void Write_PortStaysAway_TriesNoMoreOftenThanTheInterval() => _time.Run(async () =>
    {
        await using ReopeningLink link = await OpenAsync();
        _opened[0].Gone = true;
        _there = false;
        await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
        for (int i = 0; i < 50; i++)
        {
            await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
            await Task.Delay(TimeSpan.FromMilliseconds(20), _time);
        }

        // One second, an attempt each 100 ms at most; the first opening is the eleventh.
        Assert.Equal(1 + 10, _tries);
        _there = true;
        await Task.Delay(ReopeningLink.LeastInterval, _time);
        await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
        await WriteAsync(link);
        Assert.Single(_opened[1].Sent);
    });

    [Fact]
    public async Task Read_OtherEndClosed_LosesTheLink()
    {
        await using ReopeningLink link = await OpenAsync();
        _opened[0].End();
        Assert.Equal(0, await link.ReadAsync(new byte[1], TestContext.Current.CancellationToken));
        Assert.True(link.UntilLost.IsCancellationRequested);
        Assert.True(_opened[0].Disposed);
        await Assert.ThrowsAsync<IOException>(() => link.ReadAsync(new byte[1], TestContext.Current.CancellationToken).AsTask());
    }

    [Fact]
    public async Task Write_AfterDispose_OpensNothing()
    {
        ReopeningLink link = await OpenAsync();
        await link.DisposeAsync();
        await Assert.ThrowsAsync<IOException>(() => WriteAsync(link));
        Assert.Equal(1, _tries);
        Assert.True(_opened[0].Disposed);
    }

    public ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel)
    {
        _tries++;
        if (!_there)
        {
            throw new DeviceFaultException(new DeviceFault(DeviceFaultKind.LinkLost, "serial port", link.Name, "no such port"));
        }

        _opened.Add(new ScriptedLink(_time));
        return ValueTask.FromResult<ILink>(_opened[^1]);
    }

    private static Task WriteAsync(ReopeningLink link) => link.WriteAsync(Bytes, TestContext.Current.CancellationToken).AsTask();

    private ValueTask<ReopeningLink> OpenAsync() => ReopeningLink.OpenAsync(
        this,
        new LinkDescription { Name = "bus", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = "/dev/ttyUSB0" },
        _time,
        TestContext.Current.CancellationToken);
}
