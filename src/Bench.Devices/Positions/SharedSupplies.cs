using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>
/// The programmable supplies of an open bench, shared by the runs on it: on when the first run needs them, off when the
/// last has ended. A run whose outputs are not confirmed off takes them from all, at once and for good.
/// </summary>
/// <param name="all">The supplies.</param>
/// <param name="time">Clock of attempts.</param>
internal sealed class SharedSupplies(AllSupplies all, TimeProvider time) : IDisposable
{
    /// <summary>How long off is tried for over a link that went away: as long as the safety gate tries its outputs.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan BetweenAttempts = TimeSpan.FromMilliseconds(50);

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly HashSet<Share> _users = [];
    private string? _cutFor;

    /// <summary>The supplies as one run switches them.</summary>
    /// <param name="position">Where it runs.</param>
    public IBenchPower For(string position) => new Share(this, position);

    private AllSupplies All => all;

    /// <inheritdoc/>
    public void Dispose() => _turn.Dispose();

    private async ValueTask JoinAsync(Share share, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            if (_cutFor is { } position)
            {
                throw new DeviceFaultException(new DeviceFault(
                    DeviceFaultKind.Refused, "supply", position, $"it was switched off for all units, because outputs of position '{position}' are not confirmed off"));
            }

            if (_users.Count == 0)
            {
                Demand(await all.StartAsync(cancel));
            }

            _users.Add(share);
        }
        finally
        {
            _turn.Release();
        }
    }

    private async ValueTask<bool> LeaveAsync(Share share, bool outputsConfirmedOff, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            _users.Remove(share);
            if (!outputsConfirmedOff)
            {
                _cutFor ??= share.Position;
            }

            if (_users.Count > 0 && outputsConfirmedOff)
            {
                return false;
            }

            await SwitchOffAsync(cancel);
            return true;
        }
        finally
        {
            _turn.Release();
        }
    }

    private async ValueTask SwitchOffAsync(CancellationToken cancel)
    {
        long begin = time.GetTimestamp();
        while (true)
        {
            IReadOnlyList<SupplyState> states = await all.TurnOffAsync(cancel);
            if (states.All(s => s.Fault?.Kind != DeviceFaultKind.LinkLost) || time.GetElapsedTime(begin) > Patience)
            {
                Demand(states);
                return;
            }

            await Task.Delay(BetweenAttempts, time, cancel);
        }
    }

    private static void Demand(IReadOnlyList<SupplyState> states)
    {
        if (states.FirstOrDefault(s => s.Fault is not null) is { Fault: { } fault })
        {
            throw new DeviceFaultException(fault);
        }
    }

    private sealed class Share(SharedSupplies supplies, string position) : IBenchPower
    {
        public string Position => position;

        public bool IsSwitched => supplies.All.AreThere;

        public ValueTask SwitchOnAsync(CancellationToken cancel) => supplies.JoinAsync(this, cancel);

        public ValueTask<bool> SwitchOffAsync(bool outputsConfirmedOff, CancellationToken cancel) =>
            supplies.LeaveAsync(this, outputsConfirmedOff, cancel);
    }
}
