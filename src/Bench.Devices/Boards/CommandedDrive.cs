using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>
/// A unit that turns itself: an output of the bench feeds it, and its target is written to it once, within the same
/// permit. Off is the output alone and asks nothing of the unit.
/// </summary>
internal sealed class CommandedDrive : IBenchDrive
{
    private readonly IBenchDrive _power;
    private readonly BusDevice _unit;
    private readonly TargetDescription _target;
    private volatile DriveState _on = DriveState.Up;

    /// <summary>Makes a drive.</summary>
    /// <param name="power">The one output that feeds the unit.</param>
    /// <param name="unit">The unit, as the device that takes the target.</param>
    /// <param name="target">Where it takes it.</param>
    public CommandedDrive(IBenchDrive power, BusDevice unit, TargetDescription target)
    {
        _power = power;
        _unit = unit;
        _target = target;
    }

    /// <inheritdoc/>
    public bool CommandedOn => _power.CommandedOn;

    /// <inheritdoc/>
    public async ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel)
    {
        _on = (DriveState)(int)permit.Direction;
        try
        {
            await _power.EnergiseAsync(permit, cancel);
        }
        catch (DeviceFaultException) when (permit.Target is not null)
        {
            // The command may have arrived although its answer was lost: the state is read, the write not repeated (S8).
            if (await _power.ReadBackAsync(CancellationToken.None) == DriveState.Off)
            {
                throw;
            }
        }

        if (permit.Target is int count)
        {
            await TellAsync(permit, count);
        }
    }

    /// <inheritdoc/>
    public ValueTask SwitchOffAsync(CancellationToken cancel) => _power.SwitchOffAsync(cancel);

    /// <inheritdoc/>
    public async ValueTask<DriveState> ReadBackAsync(CancellationToken cancel) =>
        await _power.ReadBackAsync(cancel) == DriveState.Off ? DriveState.Off : _on;

    // A unit with power and without its target might be on its way anywhere: then power goes off at once.
    private async ValueTask TellAsync(DrivePermit permit, int count)
    {
        ushort raw = checked((ushort)_target.Raw(count));
        DeviceFault? fault;
        using (LinkTurn<IModbusClient> turn = await _unit.TakeTurnAsync(BusClass.Safety, CancellationToken.None))
        {
            if (permit.Expired)
            {
                fault = new DeviceFault(DeviceFaultKind.Silent, _unit.Name, _unit.Counts.Link, "the permit ran out before the target could be written; it was not");
            }
            else
            {
                ModbusResult result = await _unit.WriteRegisterAsync(turn, _target.Register.Address, raw);
                fault = result.Ok ? null : _unit.Fault(result, $"to take target {count} in holding register {_target.Register.Address} (sent once, never again)");
            }
        }

        if (fault is null || await ReadsBackAsync(raw))
        {
            return;
        }

        await _power.SwitchOffAsync(CancellationToken.None);
        throw new DeviceFaultException(fault);
    }

    private async ValueTask<bool> ReadsBackAsync(ushort raw)
    {
        ushort[] word = new ushort[1];
        ModbusResult result = await _unit.ReadRegistersAsync(
            BusClass.Safety, RegisterTable.HoldingRegister, _target.Register.Address, word, retry: true, CancellationToken.None);
        return result.Ok && word[0] == raw;
    }
}
