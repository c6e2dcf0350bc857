using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Safety;
using Bench.Model.Serialization;
using Bench.Running.Safety;

namespace Bench.Running.Exercising;

/// <summary>
/// Pulses each output of a position for a moment, one after the other, through the safety gate and after the same
/// confirmation as a run, and looks at what follows: read-back, current, and with a unit, which way it turns.
/// </summary>
public sealed class OutputExercise
{
    /// <summary>
    /// Time an output is on. Shorter than the time without position after which a move is ended (S4; 120 ms in the
    /// profiles that ship), so it needs no feedback; longer than a relay and a motor's start take together.
    /// </summary>
    public static readonly TimeSpan Pulse = TimeSpan.FromMilliseconds(100);

    /// <summary>Wait after switching off for current to stop and a unit to stand: relays release within 20 ms, and short-circuited motors stop within a tenth of a second.</summary>
    private const double RestS = 0.3;

    private readonly ExerciseRequest _request;
    private readonly Profile _profile;
    private readonly RunClock _clock;
    private readonly double _flowsA;
    private readonly double _most;

    /// <summary>Prepares; touches nothing.</summary>
    public OutputExercise(ExerciseRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        _request = request;
        _profile = request.Profile;
        _clock = new RunClock(request.Time);
        _most = Math.Min(Math.Min(Pulse.TotalSeconds, _profile.Safety.FeedbackLostMs / 1000), _profile.Safety.MostOnMs / 1000);

        // Half the current of a motor that turns freely, the least a working unit draws.
        _flowsA = _profile.Electrical.NoLoadCurrentA / 2;
    }

    /// <summary>Exercises. Whatever happens, outputs are off and confirmed at its end, or the result says that they are not.</summary>
    /// <param name="cancel">Stops it: outputs off, confirmed.</param>
    public async Task<ExerciseResult> ExecuteAsync(CancellationToken cancel)
    {
        // Without a unit every output of the position may be tried; with one, those that it can stand.
        DriveKind kind = _request.UnitSerial is null ? _request.Description.Drive : _profile.Drive;
        using SafetyGate gate = new(
            _request.Position.Drive, _request.Position.Watchdogs, kind, _profile.Safety, WindingHeat.For(_profile), _request.Time, _request.Record);
        List<OutputPulse> pulses = [];
        ExerciseStoppedException? stopped = null;
        try
        {
            await PrepareAsync(gate, cancel);
            foreach (DriveDirection direction in kind == DriveKind.Reversing ? new[] { DriveDirection.Up, DriveDirection.Down } : [DriveDirection.Up])
            {
                pulses.Add(await PulseAsync(gate, direction, cancel));
            }
        }
        catch (ExerciseStoppedException e)
        {
            stopped = e;
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            stopped = new ExerciseStoppedException(ExerciseEnd.Cancelled, "stopped by a person");
        }
        catch (OutputNotConfirmedException e)
        {
            stopped = new ExerciseStoppedException(ExerciseEnd.Unsafe, e.Message);
        }
        catch (Exception e) when (e is GateRefusedException or BoardChangedException or DriveNotSwitchedException or DeviceFaultException or PermitRefusedException)
        {
            stopped = new ExerciseStoppedException(ExerciseEnd.BenchFault, e.Message);
        }
        finally
        {
            await EndSafelyAsync(gate);
        }

        return new ExerciseResult(
            gate.ConfirmedOff ? stopped?.End ?? ExerciseEnd.Done : ExerciseEnd.Unsafe,
            stopped?.Message ?? gate.TrippedBecause,
            pulses,
            [.. pulses.SelectMany(p => PulseRemarks.Of(p, _request.UnitSerial is not null))],
            gate.ConfirmedOff);
    }

    private async ValueTask PrepareAsync(SafetyGate gate, CancellationToken cancel)
    {
        await gate.ConfirmSafeStateAsync();
        if (!await _request.Operator.ConfirmAsync(
            _request.UnitSerial ?? $"none, position {_request.Description.Name}", Cautions.All, ExerciseWiring.Lines(_request), cancel))
        {
            throw new ExerciseStoppedException(ExerciseEnd.NotConfirmed, "cautions and wiring were not confirmed; nothing was energised");
        }

        MeterReading rest = await MetersAsync(cancel);
        if (rest.CurrentA > _flowsA)
        {
            throw new ExerciseStoppedException(ExerciseEnd.Unsafe, FormattableString.Invariant(
                $"{rest.CurrentA:0.00} A flow with every output off: press the emergency stop; a relay contact may be welded"));
        }

        gate.Confirm(_request.UnitSerial ?? $"none (position {_request.Description.Name})");
    }

    private async ValueTask<OutputPulse> PulseAsync(SafetyGate gate, DriveDirection direction, CancellationToken cancel)
    {
        FeedbackReading before = _request.UnitSerial is null ? default : await _request.Position.Feedback.ReadAsync(cancel);
        double onS, acknowledgedS, offS;
        DriveState on;
        double? flowsS;
        double peak;
        try
        {
            // The gate waits out the dead time first; what follows is timed from the moment before it commands.
            await _clock.WaitAsync(_profile.Safety.DeadTimeMs / 1000, cancel);
            onS = _clock.NowS;
            await gate.SwitchOnAsync(direction, TimeSpan.FromSeconds(_most), cancel);
            acknowledgedS = _clock.NowS;
            on = await _request.Position.Drive.ReadBackAsync(cancel);
            _request.Record.WriteSoon(RunEventKind.OutputResult, $"drive {BenchJson.Word(direction)}: reads back {BenchJson.Word(on)}");
            (flowsS, peak) = await WatchAsync(onS, cancel);
        }
        finally
        {
            offS = _clock.NowS;
            await gate.SwitchOffAsync();
        }

        double confirmedS = _clock.NowS;
        DriveState off = await _request.Position.Drive.ReadBackAsync(cancel);
        double? stopsS = flowsS is null ? null : await StopsAsync(offS, cancel);
        if (flowsS is not null && stopsS is null)
        {
            throw new ExerciseStoppedException(ExerciseEnd.Unsafe, FormattableString.Invariant(
                $"current still flows {1000 * RestS:0} ms after output {BenchJson.Word(direction)} was read back off: press the emergency stop; its relay contact may be welded"));
        }

        await _clock.WaitAsync(offS + RestS - _clock.NowS, cancel);
        FeedbackReading after = before.Ok ? await _request.Position.Feedback.ReadAsync(cancel) : default;
        return new OutputPulse(
            direction,
            1000 * (acknowledgedS - onS),
            on,
            off,
            1000 * (confirmedS - offS),
            1000 * (flowsS - onS),
            1000 * (stopsS - offS),
            peak,
            before.Ok && after.Ok ? (int)_profile.Ring.Difference(after.Count, before.Count) : null);
    }

    // Over-current and emergency stop are watched at every reading, as in a move (S4).
    private async ValueTask<(double? FlowsS, double PeakA)> WatchAsync(double onS, CancellationToken cancel)
    {
        double? flowsS = null;
        double peak = 0;
        while (_clock.NowS < onS + _most)
        {
            MeterReading reading = await MetersAsync(cancel);
            peak = Math.Max(peak, reading.CurrentA);
            if (reading.CurrentA > _profile.Safety.OverCurrentA)
            {
                throw new ExerciseStoppedException(ExerciseEnd.Unsafe, FormattableString.Invariant(
                    $"{reading.CurrentA:0.00} A exceeded the limit of {_profile.Safety.OverCurrentA:0.00} A: supply off, look for a short"));
            }

            if (reading.CurrentA > _flowsA && _request.UnitSerial is null)
            {
                // What was confirmed is not so; whatever is connected may move.
                throw new ExerciseStoppedException(ExerciseEnd.Unsafe, FormattableString.Invariant(
                    $"{reading.CurrentA:0.00} A flow although no unit should be connected: supply off, then look what is"));
            }

            flowsS ??= reading.CurrentA > _flowsA ? _clock.At(reading.At) : null;
        }

        return (flowsS, peak);
    }

    private async ValueTask<double?> StopsAsync(double offS, CancellationToken cancel)
    {
        while (_clock.NowS < offS + RestS)
        {
            MeterReading reading = await MetersAsync(cancel);
            if (reading.CurrentA <= _flowsA)
            {
                return _clock.At(reading.At);
            }
        }

        return null;
    }

    private async ValueTask<MeterReading> MetersAsync(CancellationToken cancel)
    {
        MeterReading reading = await _request.Position.Meters.ReadAsync(cancel);
        return reading.Fault is { } fault
            ? throw new ExerciseStoppedException(ExerciseEnd.BenchFault, $"the meters can't be read: {fault.Device}: {fault.Detail}")
            : reading.EmergencyStop == true
            ? throw new ExerciseStoppedException(ExerciseEnd.Unsafe, "the emergency stop is pressed; release it when it is safe, then begin again")
            : reading;
    }

    private static async ValueTask EndSafelyAsync(SafetyGate gate)
    {
        if (gate.ConfirmedOff)
        {
            return;
        }

        try
        {
            await gate.SwitchOffAsync();
        }
        catch (OutputNotConfirmedException)
        {
            // The gate has tripped with the reason; the result carries it.
        }
    }
}
