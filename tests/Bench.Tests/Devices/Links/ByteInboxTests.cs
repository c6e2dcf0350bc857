using Bench.Devices.Links;

namespace Bench.Tests.Devices.Links;

public class ByteInboxTests
{
    private readonly byte[] _buffer = new byte[8];

    [Fact]
    public async Task ReadAsync_BytesAlreadyThere_ReturnsAtOnce()
    {
        ByteInbox inbox = new();
        inbox.Put([1, 2, 3]);
        Assert.Equal(3, await inbox.ReadAsync(_buffer, TestContext.Current.CancellationToken));
        Assert.Equal([1, 2, 3], _buffer[..3]);
    }

    [Fact]
    public async Task ReadAsync_Cancelled_LosesNoByte()
    {
        ByteInbox inbox = new();
        using CancellationTokenSource cancel = new();
        ValueTask<int> read = inbox.ReadAsync(_buffer, cancel.Token);
        await cancel.CancelAsync();
        inbox.Put([7]);
        await Assert.ThrowsAsync<OperationCanceledException>(() => read.AsTask());
        Assert.Equal(1, await inbox.ReadAsync(_buffer, TestContext.Current.CancellationToken));
        Assert.Equal(7, _buffer[0]);
    }

    [Fact]
    public async Task ReadAsync_OtherEndClosed_GivesTheRestThenZero()
    {
        ByteInbox inbox = new();
        inbox.Put([9]);
        inbox.End();
        Assert.Equal(1, await inbox.ReadAsync(_buffer, TestContext.Current.CancellationToken));
        Assert.Equal(0, await inbox.ReadAsync(_buffer, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task ReadAsync_LinkLostWhileWaiting_Throws()
    {
        ByteInbox inbox = new();
        ValueTask<int> read = inbox.ReadAsync(_buffer, TestContext.Current.CancellationToken);
        inbox.End("pulled");
        Assert.Equal("pulled", (await Assert.ThrowsAsync<IOException>(() => read.AsTask())).Message);
    }

    [Fact]
    public async Task ReadAsync_ManyRounds_ReusesItself()
    {
        ByteInbox inbox = new();
        using CancellationTokenSource cancel = new();
        for (int i = 0; i < 1000; i++)
        {
            ValueTask<int> read = inbox.ReadAsync(_buffer, cancel.Token);
            inbox.Put([(byte)(i % 256)]);
            Assert.Equal(1, await read);
            Assert.Equal((byte)(i % 256), _buffer[0]);
        }
    }
}
