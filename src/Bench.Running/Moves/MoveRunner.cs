using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Running.Landing;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running.Moves;

/// <summary>
/// Makes one move: drive on, sample until the steering says off, drive off, settle.
/// </summary>
internal sealed class MoveRunner(Profile profile, SafetyGate gate, RunGuard guard, Sampler sampler, RunClock clock, Trace trace, IGateRecord book)
{
    /// <summary>
    /// How long a unit may keep its speed without current before it is the meter's, seconds. A supply that a loose
    /// connector opens lets it coast unbraked, but not at the speed it had.
    /// </summary>
    public const double TurnsWithoutCurrentS = 0.35;

    /// <summary>Time after which a motor that has not turned stands, whatever the profile allows it, seconds. Common practice, no source.</summary>
    private const double StandsAfterS = 0.5;

    private readonly ISteering _steering =
        profile.Drive == DriveKind.Commanded ? new TargetSteering(profile)
        : profile.Feedback == FeedbackKind.Switches ? new SwitchSteering(profile)
        : new CountSteering(profile);
    private readonly Blame _blame = new(gate, sampler);
    private readonly RecentCurrents _currents = new();
    private readonly Dictionary<(string? From, DriveDirection Direction), int> _begunAlike = [];
    private double _slotS = 0.010;
    private int _number;

    /// <summary>Makes a move.</summary>
    /// <exception cref="RunAbortedException">Safety or a fault of the bench ended it; the drive is off, or the gate has tripped.</exception>
    /// <exception cref="BoardChangedException">As above: a board restarted, or its outputs were not as commanded.</exception>
    /// <exception cref="OutputNotConfirmedException">Off can't be confirmed, or the unit is driven all the same; the gate has tripped.</exception>
    public async ValueTask<Move> RunAsync(MoveCommand command, CancellationToken cancel)
    {
        int first = trace.Count;
        await ReadAtRestAsync(cancel);
        Aim aim = _steering.Aim(command, sampler.Position, LastCount(first));
        TimeSpan expectedOn = ExpectedOn(aim.TravelCounts, command);
        await RestAsync(expectedOn, command.CurrentA, cancel);

        _currents.Clear();
        double onS = await SwitchOnAsync(aim, expectedOn, cancel);
        await clock.WaitAsync(sampler.CycleS * NextPhase(command), cancel);
        _steering.DriveOn(onS);
        double offS;
        MoveEnd end;
        try
        {
            end = await WatchAsync(onS, onS + MostOnS(command), cancel);
            offS = clock.NowS;
        }
        catch (Exception e) when (e is OperationCanceledException or RunAbortedException or BoardChangedException)
        {
            await SwitchOffAsync();
            throw;
        }

        _steering.DriveOff(offS);
        long failedBefore = sampler.BenchFailures;
        await SwitchOffAsync();
        int offFailures = (int)(sampler.BenchFailures - failedBefore);
        if (end == MoveEnd.FeedbackLost)
        {
            await _blame.OnlyIfBenchAnswersAsync(cancel);
        }

        await SettleAsync(command.SettleS, cancel);
        if (end == MoveEnd.Landed && sampler.Position.Ok && offFailures == 0)
        {
            _steering.Landed();
        }

        sampler.Flush();
        Aim made = _steering.Made(aim);
        return new Move
        {
            Number = ++_number,
            Stage = command.Stage,
            FromPort = command.From?.Name,
            ToPort = command.To?.Name,
            Direction = made.Direction,
            Relative = command.Relative,
            TargetCount = made.TargetCount,
            TravelCounts = made.TravelCounts,
            DriveOnS = onS,
            DriveOffS = offS,
            SettledS = clock.NowS,
            End = end,
            ExpectedCoastCounts = end == MoveEnd.Landed ? _steering.ExpectedCoast : null,
            OffFailures = offFailures,
            FirstSample = first,
            SampleCount = trace.Count - first,
        };
    }

    private double MostOnS(MoveCommand command) => Math.Min(command.MostOnS ?? double.PositiveInfinity, profile.Safety.MostOnMs / 1000.0);

    // Speed goes with what the winding leaves of the supply: K w = V - R I.
    private TimeSpan ExpectedOn(int travel, MoveCommand command)
    {
        ElectricalData e = profile.Electrical;
        double dropV = e.WindingOhm * e.RunningCurrentA;
        double slower = command.SupplyV is double v && v > dropV ? (e.SupplyNominalV - dropV) / (v - dropV) : 1;
        double running = Math.Abs(travel) / e.RunningSpeedCountsPerS * slower;
        return TimeSpan.FromSeconds(Math.Min(MostOnS(command), (running * 1.1) + 0.1));
    }

    private async ValueTask ReadAtRestAsync(CancellationToken cancel)
    {
        await sampler.ReadMetersAsync(cancel);
        for (int i = 0; i < Sampler.SlotsPerMeterReading; i++)
        {
            await sampler.ReadPositionAsync(cancel);
        }

        guard.WhileOff();
        guard.CheckSupply();
    }

    private int? LastCount(int before)
    {
        for (int i = Math.Min(before, trace.Count) - 1; i >= 0; i--)
        {
            if (trace[i].HasCount)
            {
                return trace[i].Count;
            }
        }

        return null;
    }

    // A share of the whole polling cycle, meter reading included: moves that begin alike would be polled at the same places on
    // every pass, and the counts between never be seen. Multiples of the golden ratio spread the phases evenly, however
    // many such moves there are (Weyl, 1916).
    private double NextPhase(MoveCommand command)
    {
        (string?, DriveDirection) alike = (command.From?.Name, command.Direction);
        int before = _begunAlike.GetValueOrDefault(alike);
        _begunAlike[alike] = before + 1;
        return before * 0.6180339887498949 % 1.0;
    }

    private async ValueTask RestAsync(TimeSpan expectedOn, double? currentA, CancellationToken cancel)
    {
        if (gate.RestBefore(expectedOn, currentA) == TimeSpan.MaxValue)
        {
            // Too hot from cold already: it begins like any move, and is ended where the limit is reached.
            currentA = null;
        }

        TimeSpan rest = gate.RestBefore(expectedOn, currentA);
        while (rest > TimeSpan.Zero)
        {
            await clock.WaitAsync(Math.Min(rest.TotalSeconds + 0.001, 0.25), cancel);
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            rest = gate.RestBefore(expectedOn, currentA);
        }
    }

    private async ValueTask<double> SwitchOnAsync(Aim aim, TimeSpan expectedOn, CancellationToken cancel)
    {
        const int tries = 3;
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                sampler.Flush();
                await gate.SwitchOnAsync(aim.Direction, expectedOn, cancel, profile.Drive == DriveKind.Commanded ? aim.TargetCount : null);
                sampler.Drive = aim.Direction == DriveDirection.Up ? DriveState.Up : DriveState.Down;
                return clock.NowS;
            }
            catch (DriveNotSwitchedException) when (attempt < tries)
            {
                // Confirmed off since; a fresh decision with a fresh permit, not a repeated write (S8).
            }
            catch (DriveNotSwitchedException e)
            {
                throw new RunAbortedException(AbortReason.BenchFault, $"{e.Message}; tried {tries} times. Check relay board and link with 'bench check'.");
            }
        }
    }

    private async ValueTask SwitchOffAsync()
    {
        try
        {
            await gate.SwitchOffAsync();
        }
        finally
        {
            sampler.Drive = DriveState.Off;
            guard.Off();
        }
    }

    private async ValueTask<MoveEnd> WatchAsync(double onS, double untilS, CancellationToken cancel)
    {
        double heardS = onS;
        double flowedS = onS;
        while (true)
        {
            double beganS = clock.NowS;
            bool asked = await sampler.SlotAsync(cancel);
            bool metered = asked || sampler.MetersPushed;
            cancel.ThrowIfCancellationRequested();
            if (metered || sampler.MeterFailures > 0)
            {
                await guard.WhileOnAsync(cancel);
                _currents.Add(clock.NowS, sampler.Meters.CurrentA);
            }

            if (sampler.Position.Heard)
            {
                _steering.Take(sampler.PositionS, sampler.Position);
                heardS = sampler.PositionS;
            }

            double nowS = clock.NowS;
            flowedS = sampler.Meters.CurrentA >= profile.Electrical.NoLoadCurrentA / 2 ? nowS : flowedS;
            if (nowS - flowedS > TurnsWithoutCurrentS && sampler.MeterFailures == 0
                && _steering.TurnedAfter(flowedS))
            {
                throw new RunAbortedException(AbortReason.BenchFault, "the unit turns and the current meter shows nothing, so it can't see an over-current either: check the meter and its wiring");
            }

            if (metered && sampler.MeterFailures == 0 && gate.TakeCurrent(sampler.Meters.CurrentA) is { } hot)
            {
                // One that turned was ended by the bench's own estimate, which may be too careful: that is no failing of the unit.
                book.WriteSoon(RunEventKind.Fault, hot);
                return nowS - onS < StandsAfterS || _steering.TurnedAfter(onS) ? MoveEnd.Interrupted : StillBecause();
            }

            if (!asked)
            {
                _slotS += 0.2 * (nowS - beganS - _slotS);
            }

            if (Trouble(nowS, untilS, heardS) is { } end)
            {
                await _blame.OnlyIfDrivenAsync(end, cancel);
                return end;
            }

            // At the end of this slot the next reading would come too late: switch off at the instant itself.
            if (_steering.OffInS(nowS, _slotS) is { } offInS)
            {
                await clock.WaitAsync(offInS, cancel);
                return MoveEnd.Landed;
            }
        }
    }

    private MoveEnd? Trouble(double nowS, double untilS, double heardS)
    {
        if ((nowS - heardS) * 1000 > profile.Safety.FeedbackLostMs)
        {
            return MoveEnd.FeedbackLost;
        }

        return _steering.Failed(nowS, StillBecause)
            ?? (nowS > untilS ? MoveEnd.OverTime : null);
    }

    private MoveEnd StillBecause()
    {
        double median = _currents.MedianSince(clock.NowS - (profile.Safety.NoMotionMs / 2000.0));
        ElectricalData nominal = profile.Electrical;
        double stall = nominal.StallCurrentA * sampler.Meters.VoltageV / nominal.SupplyNominalV;

        // Halfway between the neighbouring levels; the judge looks closer at the trace.
        return median > (stall + nominal.RunningCurrentA) / 2 ? MoveEnd.Stalled
            : median < nominal.NoLoadCurrentA / 2 ? MoveEnd.NoCurrent
            : MoveEnd.CountStill;
    }

    private async ValueTask SettleAsync(double settleS, CancellationToken cancel)
    {
        double untilS = clock.NowS + settleS;
        while (clock.NowS < untilS)
        {
            await sampler.SlotAsync(cancel);
            if (sampler.Position.Heard)
            {
                _steering.Take(sampler.PositionS, sampler.Position);
            }

            guard.WhileOff();
        }
    }
}
