using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Modbus.Client;
using NSubstitute;

namespace Bench.Tests.Devices.Buses;

public class LinkOwnerTests
{
    private readonly SteppedTime _time = new();
    private readonly LinkOwner<IModbusClient> _bus = new("bus", Substitute.For<IModbusClient>());
    private readonly List<string> _order = [];

    [Fact]
    public void TakeTurn_ManyInLine_GoByClassThenByArrival() => _time.Run(async () =>
    {
        LinkTurn<IModbusClient> first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Task[] line =
        [
            UseAsync("rest 1", BusClass.Rest),
            UseAsync("moving 1", BusClass.Moving),
            UseAsync("rest 2", BusClass.Rest),
            UseAsync("safety 1", BusClass.Safety),
            UseAsync("moving 2", BusClass.Moving),
            UseAsync("safety 2", BusClass.Safety),
        ];
        first.Dispose();
        await Task.WhenAll(line);
        Assert.Equal(["safety 1", "safety 2", "moving 1", "moving 2", "rest 1", "rest 2"], _order);
    });

    [Fact]
    public void TakeTurn_SafetyComesWhileOthersWait_GoesNext() => _time.Run(async () =>
    {
        LinkTurn<IModbusClient> first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Task slow = UseAsync("moving 1", BusClass.Moving, () => UseAsync("safety", BusClass.Safety));
        Task next = UseAsync("moving 2", BusClass.Moving);
        first.Dispose();
        await Task.WhenAll(slow, next);
        Assert.Equal(["moving 1", "safety", "moving 2"], _order);
    });

    [Fact]
    public void TakeTurn_CancelledInLine_LeavesTheLine() => _time.Run(async () =>
    {
        using CancellationTokenSource cancel = new();
        LinkTurn<IModbusClient> first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Task<LinkTurn<IModbusClient>> leaver = _bus.TakeTurnAsync(BusClass.Safety, cancel.Token).AsTask();
        Task stayer = UseAsync("stayer", BusClass.Rest);
        cancel.Cancel();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => leaver);
        first.Dispose();
        await stayer;
        await UseAsync("after", BusClass.Rest);
        Assert.Equal(["stayer", "after"], _order);
    });

    [Fact]
    public void TakeTurn_ClientNotReady_GivesTheTurnBack() => _time.Run(async () =>
    {
        LinkOwner<NotReadyAtFirst> owner = new("bus", new NotReadyAtFirst());
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => owner.TakeTurnAsync(BusClass.Rest, CancellationToken.None).AsTask());
        using LinkTurn<NotReadyAtFirst> next = await owner.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Assert.Equal(2, next.Client.Asked);
    });

    [Fact]
    public void TakeTurn_OnALinkOfLines_IsTheSameQueue() => _time.Run(async () =>
    {
        await using LineClient client = new(new ScriptedLink(_time), _time);
        LinkOwner<LineClient> lines = new("line", client);
        LinkTurn<LineClient> first = await lines.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Task rest = UseLineAsync(lines, "rest", BusClass.Rest);
        Task safety = UseLineAsync(lines, "safety", BusClass.Safety);
        first.Dispose();
        await Task.WhenAll(rest, safety);
        Assert.Equal(["safety", "rest"], _order);
    });

    private async Task UseLineAsync(LinkOwner<LineClient> lines, string name, BusClass line)
    {
        using LinkTurn<LineClient> turn = await lines.TakeTurnAsync(line, CancellationToken.None);
        _order.Add(name);
    }

    private async Task UseAsync(string name, BusClass line, Func<Task>? meanwhile = null)
    {
        Task? other = null;
        using (await _bus.TakeTurnAsync(line, CancellationToken.None))
        {
            _order.Add(name);
            other = meanwhile?.Invoke();
            await Task.Yield();
        }

        await (other ?? Task.CompletedTask);
    }

    private sealed class NotReadyAtFirst : ILinkClient
    {
        public int Asked { get; private set; }

        public ValueTask ReadyAsync(CancellationToken cancel) =>
            ++Asked == 1 ? ValueTask.FromException(new OperationCanceledException()) : ValueTask.CompletedTask;
    }
}
