using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Running.Safety;

/// <summary>
/// The one way to an output (design, section 7: S1-S3, S6-S9). It owns the drive; whoever wants motion asks here.
/// Software is not a safety function: an emergency stop in hardware, a fuse and a current-limited supply come first.
/// </summary>
public sealed class SafetyGate : IDisposable
{
    /// <summary>How long a permit is good for: one bus exchange with room for a safety write before it.</summary>
    public static readonly TimeSpan PermitLifetime = TimeSpan.FromMilliseconds(100);

    /// <summary>How long off is commanded and read back before the gate gives up and trips.</summary>
    public static readonly TimeSpan ConfirmTime = TimeSpan.FromSeconds(2);

    /// <summary>How far past the longest on-time the gate's own guard acts, when whoever watches the move has not.</summary>
    public static readonly TimeSpan GuardGrace = TimeSpan.FromMilliseconds(250);

    private readonly IDrive _drive;
    private readonly SafetyLimits _limits;
    private readonly TimeProvider _time;
    private readonly IGateRecord _record;
    private readonly WatchdogGuard _watchdogs;
    private readonly MotorLimits _motor;
    private readonly SupplyRange? _supply;
    private readonly OffCommand _off;
    private readonly long _start;
    private readonly Lock _lock = new();
    private readonly ITimer _guard;
    private readonly GateCondition _condition = new();
    private DriveState _commanded;
    private double _offAtS = double.NegativeInfinity;

    /// <summary>Makes a closed gate.</summary>
    /// <param name="drive">The drive it guards; nobody else may hold it.</param>
    /// <param name="watchdogs">Watchdogs of the boards behind the drive; armed before the gate is.</param>
    /// <param name="kind">What the unit's family allows.</param>
    /// <param name="limits">Limits of the unit's family.</param>
    /// <param name="heat">Heat of the unit's winding; null when its profile has no data.</param>
    /// <param name="time">The clock.</param>
    /// <param name="record">Takes every change of output before and after it (S9).</param>
    /// <param name="supply">Voltages that the unit's family and the bench both allow; null when the supply is not to be set.</param>
    internal SafetyGate(
        IDrive drive,
        IReadOnlyList<IWatchdog> watchdogs,
        DriveKind kind,
        SafetyLimits limits,
        WindingHeat? heat,
        TimeProvider time,
        IGateRecord record,
        SupplyRange? supply = null)
    {
        _drive = drive;
        _watchdogs = new WatchdogGuard(watchdogs, time, record);
        _limits = limits;
        _time = time;
        _record = record;
        _supply = supply;
        _motor = new MotorLimits(kind, limits, heat);
        _off = new OffCommand(drive, time);
        _start = time.GetTimestamp();
        _guard = time.CreateTimer(_ => GuardElapsed(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>State of the gate.</summary>
    public GateState State => _condition.State;

    /// <summary>Why the gate tripped; null unless it did.</summary>
    public string? TrippedBecause => _condition.TrippedBecause;

    /// <summary>
    /// Whether the last switching off was confirmed by read-back, nothing was switched on since, and no reading ever
    /// contradicted it.
    /// </summary>
    public bool ConfirmedOff => _condition.ConfirmedOff;

    /// <summary>Drives the safe state and reads it back (S3, S5), then arms the boards' watchdogs (S6).</summary>
    /// <exception cref="OutputNotConfirmedException">Off can't be confirmed; the gate has tripped.</exception>
    /// <exception cref="GateRefusedException">A watchdog can't be armed; outputs are off and the gate stays closed.</exception>
    public async ValueTask ConfirmSafeStateAsync()
    {
        await SwitchOffAsync();
        if (await _watchdogs.ArmAsync() is { } failed)
        {
            throw new GateRefusedException(failed);
        }

        lock (_lock)
        {
            _condition.SafeStateIsRead();
        }
    }

    /// <summary>Takes a person's confirmation of cautions and wiring for one unit (S3).</summary>
    /// <param name="serial">Serial number of the unit it was given for.</param>
    public void Confirm(string serial)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(serial);
        _record.Write(RunEventKind.Confirmation, $"cautions and wiring confirmed for unit {serial}");
        lock (_lock)
        {
            _condition.Confirm(serial);
        }
    }

    /// <summary>Closes an armed gate because wiring is to be touched: safe state and confirmation are needed anew (S3).</summary>
    /// <param name="why">Why, for the record.</param>
    public void WithdrawConfirmation(string why)
    {
        lock (_lock)
        {
            if (!_condition.Withdraw())
            {
                return;
            }
        }

        _record.Write(RunEventKind.Gate, $"gate closed: {why}");
    }

    /// <summary>Rest needed before a move of the given on-time keeps within duty and heat (S7).</summary>
    /// <param name="on">The on-time.</param>
    /// <param name="currentA">Current it is expected to draw, amperes; null for the family's running current.</param>
    public TimeSpan RestBefore(TimeSpan on, double? currentA = null)
    {
        lock (_lock)
        {
            double rest = _motor.RestBefore(NowS, on, currentA);
            return double.IsInfinity(rest) ? TimeSpan.MaxValue : TimeSpan.FromSeconds(rest);
        }
    }

    /// <summary>Estimated temperature of the winding now, degrees Celsius; null when nothing is known of it.</summary>
    public double? WindingCelsius
    {
        get
        {
            lock (_lock)
            {
                return _motor.CelsiusAt(NowS);
            }
        }
    }

    /// <summary>Takes the unit's current as measured, for the heat of its winding (S7).</summary>
    /// <param name="currentA">Amperes.</param>
    /// <returns>Why the drive must go off, in plain words; null when the winding is cool enough or nothing is known of it.</returns>
    public string? TakeCurrent(double currentA)
    {
        lock (_lock)
        {
            return _motor.Take(NowS, currentA);
        }
    }

    /// <summary>Switches the drive on for one move.</summary>
    /// <param name="direction">Which way.</param>
    /// <param name="expectedOn">How long it should stay on; counted against the duty limit.</param>
    /// <param name="cancel">Cancels waiting for the dead time, and the command.</param>
    /// <param name="target">Count that a commanded unit is told within the same permit; null for any other.</param>
    /// <exception cref="GateRefusedException">The gate is not armed, or a limit forbids it.</exception>
    /// <exception cref="DriveNotSwitchedException">The board did not switch or does not answer, or was not reached in time; off.</exception>
    /// <exception cref="BoardChangedException">A board has restarted since the gate was armed; the gate has tripped.</exception>
    /// <exception cref="OutputNotConfirmedException">The board did not answer and off can't be confirmed.</exception>
    public async ValueTask SwitchOnAsync(DriveDirection direction, TimeSpan expectedOn, CancellationToken cancel, int? target = null)
    {
        Check(direction, expectedOn);
        await CheckWatchdogsAsync(cancel);
        double dead = _offAtS + (_limits.DeadTimeMs / 1000.0) - NowS;
        if (dead > 0)
        {
            await Task.Delay(TimeSpan.FromSeconds(dead), _time, cancel);
        }

        string word = BenchJson.Word(direction);
        _record.Write(RunEventKind.OutputCommand, target is int count ? $"drive {word}: on, target {count}" : $"drive {word}: on");
        TimeSpan most = TimeSpan.FromMilliseconds(_limits.MostOnMs);
        DrivePermit permit;
        lock (_lock)
        {
            // State may have changed while the dead time passed or the record was written.
            RefuseUnlessArmed_NeedsLock();
#pragma warning disable RS0030 // The gate is the one maker of permits (S1).
            permit = new DrivePermit(_time, direction, PermitLifetime, most, target);
#pragma warning restore RS0030
            _condition.Energise();
            _commanded = (DriveState)(int)direction;
            _motor.On(NowS);
            _guard.Change(most + GuardGrace, Timeout.InfiniteTimeSpan);
        }

        try
        {
            await _drive.EnergiseAsync(permit, cancel);
            _record.WriteSoon(RunEventKind.OutputResult, $"drive {word}: acknowledged");
        }
        catch (OperationCanceledException)
        {
            RecordSafely(RunEventKind.OutputResult, $"drive {word}: stopped before it was acknowledged");
            throw;
        }
        catch (DeviceFaultException e)
        {
            await AfterLostReplyAsync(direction, e);
        }
        catch (PermitRefusedException e)
        {
            // Too long in line, behind a device that does not answer for one.
            await SwitchOffAsync();
            throw new DriveNotSwitchedException(
                FormattableString.Invariant($"nothing was switched on: {e.Message}. The line to the board was busy for longer than {PermitLifetime.TotalMilliseconds:0} ms; see which device on it does not answer"), e);
        }
    }

    /// <summary>
    /// Gives leave to set the supply to a voltage, once, with the drive read back off. Until <see cref="SupplyIsKnown"/> says that
    /// the voltage was read back, nothing is switched on.
    /// </summary>
    /// <param name="voltageV">Volts.</param>
    /// <exception cref="GateRefusedException">The gate is not armed, or the voltage is not one that family and bench both allow.</exception>
    internal SupplyPermit PermitSupply(double voltageV)
    {
        lock (_lock)
        {
            RefuseUnlessArmed_NeedsLock();
            if (!ConfirmedOff)
            {
                throw new GateRefusedException("the drive is not confirmed off, so the supply is left as it is");
            }

            if (_supply is not { } range || !range.Allows(voltageV))
            {
                throw new GateRefusedException(FormattableString.Invariant(
                    $"the supply may not be set to {voltageV:0.###} V: {(_supply is { } r ? FormattableString.Invariant($"unit and bench allow {r.LowestV:0.##} to {r.HighestV:0.##} V") : "it can't be set on this bench")}"));
            }

            _condition.SupplyChanges();
#pragma warning disable RS0030 // The gate is the one maker of permits (S1).
            return new SupplyPermit(_time, voltageV, PermitLifetime);
#pragma warning restore RS0030
        }
    }

    /// <summary>The supply's voltage has been read back, and measured, as what was asked for.</summary>
    internal void SupplyIsKnown()
    {
        lock (_lock)
        {
            _condition.SupplyIsKnown();
        }
    }

    /// <summary>Switches the drive off and confirms it by read-back; repeats until it is so or <see cref="ConfirmTime"/> passed.</summary>
    /// <exception cref="OutputNotConfirmedException">Off can't be confirmed; the gate has tripped.</exception>
    public async ValueTask SwitchOffAsync()
    {
        string? wrong = await _off.GiveAsync(ConfirmTime, () => RecordSafely(RunEventKind.OutputCommand, "drive: off"));
        if (wrong is null)
        {
            BecomeOff();
            RecordSafely(RunEventKind.OutputResult, "drive: off, read back");
            return;
        }

        string reason = $"the drive can't be confirmed off ({wrong}): cut the supply with the emergency stop, then check relay and link";
        Trip(reason);
        throw new OutputNotConfirmedException(reason);
    }

    /// <summary>
    /// Reads back whether the outputs still are what was commanded and the watchdogs still are armed. For whoever watches
    /// a move and has reason to doubt it: a board that was silent, a motor that takes no current.
    /// </summary>
    /// <returns>False when a board did not answer, so that nothing is known.</returns>
    /// <exception cref="BoardChangedException">They are not; the gate has tripped, the drive is still to be switched off.</exception>
    public async ValueTask<bool> CheckOutputsAsync(CancellationToken cancel)
    {
        DriveState state;
        string? disarmed;
        try
        {
            state = await _drive.ReadBackAsync(cancel);
            disarmed = await _watchdogs.FindDisarmedAsync(cancel);
        }
        catch (DeviceFaultException)
        {
            return false;
        }

        if (disarmed is not null)
        {
            throw Changed(Restarted(disarmed));
        }

        return state == _commanded ? true : throw Changed(
            $"the outputs read back {BenchJson.Word(state)} while {BenchJson.Word(_commanded)} was commanded: the board restarted, or something else switches it");
    }

    /// <summary>
    /// Takes evidence that the unit is driven although the drive reads back off: from now on no read-back counts as
    /// confirmation, and the gate has tripped.
    /// </summary>
    /// <param name="evidence">What was seen, in plain words.</param>
    /// <returns>The exception to throw.</returns>
    public OutputNotConfirmedException Contradict(string evidence)
    {
        string reason = $"the drive reads back off, but {evidence}: press the emergency stop now. A relay contact may be welded, a wire may lead past it, the current meter may be off its zero, or someone turns the shaft";
        lock (_lock)
        {
            _condition.Contradict();
        }

        Trip(reason);
        return new OutputNotConfirmedException(reason);
    }

    /// <summary>Trips the gate: nothing can be switched on through it any more. Does not switch off by itself.</summary>
    public void Trip(string reason)
    {
        lock (_lock)
        {
            if (!_condition.Trip(reason))
            {
                return;
            }
        }

        RecordSafely(RunEventKind.Gate, $"gate tripped: {reason}");
    }

    /// <inheritdoc/>
    public void Dispose() => _guard.Dispose();

    private double NowS => (_time.GetTimestamp() - _start) / (double)_time.TimestampFrequency;

    private void Check(DriveDirection direction, TimeSpan expectedOn)
    {
        lock (_lock)
        {
            RefuseUnlessArmed_NeedsLock();
            if (_motor.Refusal(NowS, direction, expectedOn) is { } why)
            {
                throw new GateRefusedException(why);
            }
        }
    }

    private async ValueTask CheckWatchdogsAsync(CancellationToken cancel)
    {
        try
        {
            if (await _watchdogs.FindDisarmedAsync(cancel) is { } disarmed)
            {
                throw Changed(Restarted(disarmed));
            }
        }
        catch (DeviceFaultException e)
        {
            throw new DriveNotSwitchedException($"the board's watchdog can't be read, so nothing was switched on: {e.Message}", e);
        }
    }

    private static string Restarted(string board) =>
        $"the watchdog of {board} is no longer armed: the board has restarted, or something else writes to it";

    // Outputs of a board that restarted may be anything, so the last confirmation is void.
    private BoardChangedException Changed(string what)
    {
        string reason = $"{what}. No move goes on after that: check the board's power, its plug and who else uses it, then start a new run";
        lock (_lock)
        {
            _condition.DoubtOff();
        }

        Trip(reason);
        return new BoardChangedException(reason);
    }

    private void RefuseUnlessArmed_NeedsLock()
    {
        if (_condition.Refusal is { } why)
        {
            throw new GateRefusedException(why);
        }
    }

    private void BecomeOff()
    {
        lock (_lock)
        {
            _guard.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            _motor.Off(NowS);
            _offAtS = NowS;
            _commanded = DriveState.Off;
            _condition.BecomeOff();
        }
    }

    // The command may have arrived although its answer was lost, so the state is read, never the command repeated (S8).
    private async ValueTask AfterLostReplyAsync(DriveDirection direction, DeviceFaultException fault)
    {
        RecordSafely(RunEventKind.Fault, $"switching on was not acknowledged ({fault.Message})");
        DriveState state = DriveState.Off;
        try
        {
            state = await _drive.ReadBackAsync(CancellationToken.None);
        }
        catch (DeviceFaultException e)
        {
            RecordSafely(RunEventKind.Fault, $"read-back failed ({e.Message})");
        }

        if ((int)state == (int)direction)
        {
            RecordSafely(RunEventKind.OutputResult, $"drive {BenchJson.Word(direction)}: on, read back");
            return;
        }

        await SwitchOffAsync();
        throw new DriveNotSwitchedException($"the board did not switch the drive on: {fault.Message}", fault);
    }

    private void GuardElapsed()
    {
        lock (_lock)
        {
            if (State != GateState.Energised)
            {
                return;
            }
        }

        Trip($"the drive was on longer than {_limits.MostOnMs:0} ms");
        _ = GuardOffAsync();
    }

    private async Task GuardOffAsync()
    {
        try
        {
            await SwitchOffAsync();
        }
        catch (OutputNotConfirmedException e)
        {
            RecordSafely(RunEventKind.Fault, e.Message);
        }
    }

    // Switching off must not fail because the record can't be written; the run ends for that reason elsewhere.
    private void RecordSafely(RunEventKind kind, string text)
    {
        try
        {
            _record.Write(kind, text);
        }
        catch (JournalException)
        {
            lock (_lock)
            {
                _condition.Trip("the record can't be written");
            }
        }
    }
}
