using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>
/// A unit's drive on relay coils. Neighbouring coils of one board are written in one frame, so there is no moment with
/// both on; else the other direction's coil is written off, and confirmed, before this one's on.
/// </summary>
public sealed class RelayDrive : IBenchDrive
{
    private const int MostOffAttempts = 2;

    private static readonly bool[] On = [true];
    private static readonly bool[] Off = [false];
    private static readonly bool[] BothOff = [false, false];

    private readonly RelayCoil _up;
    private readonly RelayCoil? _down;
    private readonly bool _oneFrame;
    private volatile bool _commandedOn;

    /// <summary>Makes a drive.</summary>
    /// <param name="up">Coil towards rising counts.</param>
    /// <param name="down">Coil towards falling counts; null for a single drive.</param>
    public RelayDrive(RelayCoil up, RelayCoil? down)
    {
        _up = up;
        _down = down;
        _oneFrame = down is not null && up.IsBeside(down);
    }

    /// <inheritdoc/>
    public bool CommandedOn => _commandedOn;

    /// <inheritdoc/>
    public async ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel)
    {
        // One output feeds a commanded unit, whichever way it will turn.
        RelayCoil on = (permit.Direction == DriveDirection.Up || permit.Target is not null ? _up : _down)
            ?? throw new PermitRefusedException($"this drive has no output to turn {permit.Direction}; it is a single drive");
        RelayCoil? other = on == _up ? _down : _up;

        if (other is not null && !_oneFrame)
        {
            await WriteOffAsync(other, cancel);
        }

        using LinkTurn<IModbusClient> turn = await on.Device.TakeTurnAsync(BusClass.Safety, cancel);
        cancel.ThrowIfCancellationRequested();

        // From here the frame goes out at once, and only once (S8).
        permit.Take();
        _commandedOn = true;
        ModbusResult result = _oneFrame
            ? await on.Device.WriteCoilsAsync(turn, FirstOfBoth, Pattern(on.Address))
            : await on.Device.WriteCoilsAsync(turn, on.Address, On);
        if (!result.Ok)
        {
            throw new DeviceFaultException(on.Device.Fault(result, $"to switch coil {on.Address} on (sent once, never again; its state is unknown until read back)"));
        }
    }

    /// <inheritdoc/>
    public async ValueTask SwitchOffAsync(CancellationToken cancel)
    {
        if (_oneFrame)
        {
            await WriteOffAsync(_up, cancel);
        }
        else
        {
            // The second is tried even when the first fails: one stuck board must not keep the other's output on.
            DeviceFaultException? first = null;
            try
            {
                await WriteOffAsync(_up, cancel);
            }
            catch (DeviceFaultException e)
            {
                first = e;
            }

            if (_down is not null)
            {
                await WriteOffAsync(_down, cancel);
            }

            if (first is not null)
            {
                throw first;
            }
        }

        _commandedOn = false;
    }

    /// <inheritdoc/>
    public async ValueTask<DriveState> ReadBackAsync(CancellationToken cancel)
    {
        bool up;
        bool down = false;
        if (_oneFrame)
        {
            bool[] both = new bool[2];
            await ReadAsync(_up, FirstOfBoth, both, cancel);
            (up, down) = _up.Address < _down!.Address ? (both[0], both[1]) : (both[1], both[0]);
        }
        else
        {
            bool[] one = new bool[1];
            await ReadAsync(_up, _up.Address, one, cancel);
            up = one[0];
            if (_down is not null)
            {
                await ReadAsync(_down, _down.Address, one, cancel);
                down = one[0];
            }
        }

        return (up ? DriveState.Up : DriveState.Off) | (down ? DriveState.Down : DriveState.Off);
    }

    private int FirstOfBoth => Math.Min(_up.Address, _down!.Address);

    private bool[] Pattern(int on) => [on == FirstOfBoth, on == FirstOfBoth + 1];

    private async ValueTask WriteOffAsync(RelayCoil coil, CancellationToken cancel)
    {
        for (int attempt = 1; ; attempt++)
        {
            ModbusResult result;
            using (LinkTurn<IModbusClient> turn = await coil.Device.TakeTurnAsync(BusClass.Safety, cancel))
            {
                result = _oneFrame
                    ? await coil.Device.WriteCoilsAsync(turn, FirstOfBoth, BothOff)
                    : await coil.Device.WriteCoilsAsync(turn, coil.Address, Off);
            }

            if (result.Ok)
            {
                return;
            }

            if (attempt == MostOffAttempts || result.Fault is DeviceFaultKind.LinkLost)
            {
                throw new DeviceFaultException(coil.Device.Fault(result, $"{(attempt == 1 ? "once" : $"{attempt} times")} to switch coil {coil.Address} off"));
            }
        }
    }

    private static async ValueTask ReadAsync(RelayCoil coil, int first, bool[] values, CancellationToken cancel)
    {
        ModbusResult result = await coil.Device.ReadBitsAsync(
            BusClass.Safety, RegisterTable.Coil, first, values, retry: true, cancel);
        if (!result.Ok)
        {
            throw new DeviceFaultException(coil.Device.Fault(result, $"to read back coil {first}"));
        }
    }
}
