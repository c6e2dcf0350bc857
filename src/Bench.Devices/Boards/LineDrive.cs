using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>
/// A unit's drive on relays of a board that speaks lines. The other direction's relay is switched off, and confirmed,
/// before this one's on. Where the board does not answer a switching line, reading back confirms it.
/// </summary>
public sealed class LineDrive : IBenchDrive
{
    private const int MostOffAttempts = 2;

    private readonly LineRelay _up;
    private readonly LineRelay? _down;
    private volatile bool _commandedOn;

    /// <summary>Makes a drive.</summary>
    /// <param name="up">Relay towards rising counts.</param>
    /// <param name="down">Relay towards falling counts; null for a single drive.</param>
    public LineDrive(LineRelay up, LineRelay? down)
    {
        _up = up;
        _down = down;
    }

    /// <inheritdoc/>
    public bool CommandedOn => _commandedOn;

    /// <inheritdoc/>
    public async ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel)
    {
        // One output feeds a commanded unit, whichever way it will turn.
        LineRelay on = (permit.Direction == DriveDirection.Up || permit.Target is not null ? _up : _down)
            ?? throw new PermitRefusedException($"this drive has no output to turn {permit.Direction}; it is a single drive");
        LineRelay? other = on == _up ? _down : _up;
        if (other is not null)
        {
            await SwitchOffAsync(other, cancel);
        }

        LineResult result;
        using (LinkTurn<LineClient> turn = await on.Device.Line.TakeTurnAsync(BusClass.Safety, cancel))
        {
            cancel.ThrowIfCancellationRequested();

            // From here the line goes out at once, and only once (S8).
            permit.Take();
            _commandedOn = true;
            result = await on.Device.SwitchAsync(turn, on.Channel, on: true);
        }

        if (!result.Ok)
        {
            throw new DeviceFaultException(on.Device.Line.Fault(result, $"to switch {on.Channel} on (sent once, never again; its state is unknown until read back)"));
        }

        if (!on.Device.AnswersSwitching && !await ReadAsync(on, CancellationToken.None))
        {
            throw new DeviceFaultException(Contradicts(on, "on", "off"));
        }
    }

    /// <inheritdoc/>
    public async ValueTask SwitchOffAsync(CancellationToken cancel)
    {
        // The second is tried even when the first fails: one stuck board must not keep the other's output on.
        DeviceFaultException? first = null;
        try
        {
            await SwitchOffAsync(_up, cancel);
        }
        catch (DeviceFaultException e)
        {
            first = e;
        }

        if (_down is not null)
        {
            await SwitchOffAsync(_down, cancel);
        }

        if (first is not null)
        {
            throw first;
        }

        _commandedOn = false;
    }

    /// <inheritdoc/>
    public async ValueTask<DriveState> ReadBackAsync(CancellationToken cancel)
    {
        bool up = await ReadAsync(_up, cancel);
        bool down = _down is not null && await ReadAsync(_down, cancel);
        return (up ? DriveState.Up : DriveState.Off) | (down ? DriveState.Down : DriveState.Off);
    }

    private static async ValueTask SwitchOffAsync(LineRelay relay, CancellationToken cancel)
    {
        for (int attempt = 1; ; attempt++)
        {
            LineResult result;
            using (LinkTurn<LineClient> turn = await relay.Device.Line.TakeTurnAsync(BusClass.Safety, cancel))
            {
                result = await relay.Device.SwitchAsync(turn, relay.Channel, on: false);
            }

            bool confirmed = result.Ok && (relay.Device.AnswersSwitching || !await ReadAsync(relay, cancel));
            if (confirmed)
            {
                return;
            }

            if (attempt == MostOffAttempts || result.Fault is DeviceFaultKind.LinkLost)
            {
                throw new DeviceFaultException(result.Ok
                    ? Contradicts(relay, "off", "on")
                    : relay.Device.Line.Fault(result, $"{(attempt == 1 ? "once" : $"{attempt} times")} to switch {relay.Channel} off"));
            }
        }
    }

    private static async ValueTask<bool> ReadAsync(LineRelay relay, CancellationToken cancel)
    {
        (LineResult result, bool on) = await relay.Device.AskStateAsync(BusClass.Safety, relay.Channel, retry: true, cancel);
        return result.Ok ? on : throw new DeviceFaultException(relay.Device.Line.Fault(result, $"to read back {relay.Channel}"));
    }

    private static DeviceFault Contradicts(LineRelay relay, string asked, string reads) => new(
        DeviceFaultKind.Refused,
        relay.Device.Line.Name,
        relay.Device.Line.Counts.Link,
        $"asked to switch {relay.Channel} {asked}, it reads back {reads}; check the templates in the bench file against the board's manual");
}
