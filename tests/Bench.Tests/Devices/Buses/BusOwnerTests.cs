using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using NSubstitute;

namespace Bench.Tests.Devices.Buses;

public class BusOwnerTests
{
    private readonly SteppedTime _time = new();
    private readonly BusOwner _bus = new("bus", Substitute.For<IModbusClient>());
    private readonly List<string> _order = [];

    [Fact]
    public void TakeTurn_ManyInLine_GoByClassThenByArrival() => _time.Run(async () =>
    {
        BusTurn first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
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
        BusTurn first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
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
        BusTurn first = await _bus.TakeTurnAsync(BusClass.Rest, CancellationToken.None);
        Task<BusTurn> leaver = _bus.TakeTurnAsync(BusClass.Safety, cancel.Token).AsTask();
        Task stayer = UseAsync("stayer", BusClass.Rest);
        cancel.Cancel();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => leaver);
        first.Dispose();
        await stayer;
        await UseAsync("after", BusClass.Rest);
        Assert.Equal(["stayer", "after"], _order);
    });

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
}
