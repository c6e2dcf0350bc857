using Bench.Devices.Scpi;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>
/// The programmable supplies of an open bench, shared by the runs on it: on when the first run needs them, off when the
/// last has ended. A run whose outputs are not confirmed off takes them from all, at once and for good. One that is alone on
/// them may set its own to another voltage; until that is restored nobody else comes on.
/// </summary>
/// <param name="all">The supplies.</param>
/// <param name="time">Clock of attempts.</param>
internal sealed class SharedSupplies(AllSupplies all, TimeProvider time) : IDisposable
{
    /// <summary>How long a supply that does not answer, answers damaged or refuses is tried for: as long as the safety gate tries its outputs.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan BetweenAttempts = TimeSpan.FromMilliseconds(50);

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly HashSet<Share> _users = [];
    private string? _cutFor;
    private Share? _setBy;

    /// <summary>The supplies as one run switches them.</summary>
    /// <param name="position">Where it runs.</param>
    /// <param name="supply">Which of them feeds the position; null when that is not known.</param>
    public IBenchPower For(string position, string? supply) => new Share(this, position, supply);

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
                // Whatever voltage was left, each is set to its own at start.
                Demand(await all.StartAsync(cancel));
                _setBy = null;
            }
            else if (_setBy is { } other && other != share)
            {
                throw new DeviceFaultException(new DeviceFault(
                    DeviceFaultKind.Refused, "supply", share.Position, $"it is set to another voltage for position '{other.Position}'; start this unit when that run has ended"));
            }

            _users.Add(share);
        }
        finally
        {
            _turn.Release();
        }
    }

    private async ValueTask SetVoltageAsync(Share share, SupplyPermit permit, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            if (!_users.SetEquals([share]) || share.Supply is not { } supply)
            {
                throw new PermitRefusedException("the supply is not this run's alone, so its voltage is left as it is");
            }

            _setBy = share;
            await supply.SetVoltageAsync(permit, cancel);
        }
        finally
        {
            _turn.Release();
        }
    }

    private async ValueTask RestoreVoltageAsync(Share share, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        try
        {
            if (_setBy != share || share.Supply is not { } supply)
            {
                return;
            }

            long begin = time.GetTimestamp();
            while (true)
            {
                try
                {
                    await supply.RestoreVoltageAsync(cancel);
                    _setBy = null;
                    return;
                }
                catch (DeviceFaultException) when (time.GetElapsedTime(begin) <= Patience)
                {
                    await Task.Delay(BetweenAttempts, time, cancel);
                }
            }
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
            if (states.All(s => s.Fault is null) || time.GetElapsedTime(begin) > Patience)
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

    private sealed class Share(SharedSupplies supplies, string position, string? name) : IBenchPower
    {
        public string Position => position;

        public ScpiSupply? Supply { get; } = supplies.All.Named(name);

        public SupplyRange? Settable => Supply?.Range;

        public bool IsShared => supplies._users.Any(u => u != this);

        public bool IsSwitched => supplies.All.AreThere;

        public ValueTask SwitchOnAsync(CancellationToken cancel) => supplies.JoinAsync(this, cancel);

        public ValueTask SetVoltageAsync(SupplyPermit permit, CancellationToken cancel) => supplies.SetVoltageAsync(this, permit, cancel);

        public ValueTask RestoreVoltageAsync(CancellationToken cancel) => supplies.RestoreVoltageAsync(this, cancel);

        public ValueTask<bool> SwitchOffAsync(bool outputsConfirmedOff, CancellationToken cancel) =>
            supplies.LeaveAsync(this, outputsConfirmedOff, cancel);
    }
}
