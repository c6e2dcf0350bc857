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
/// Makes one move: drive on, sample until the landing is predicted, drive off, settle. The bench closes the loop, so
/// it switches off ahead of the target by the coast it expects, and keeps what it expected so that its own part of the
/// landing error can be told from the unit's.
/// </summary>
internal sealed class MoveRunner(Profile profile, SafetyGate gate, RunGuard guard, Sampler sampler, RunClock clock, Trace trace, IGateRecord book)
{
    /// <summary>A landing within fewer counts than this is made by way of another revolution: the unit would not reach its speed.</summary>
    private const double LeastTravelShare = 0.12;

    /// <summary>Failures of the feedback with the bench's own devices answering in between that make it the feedback's: one may be the end of a bus's.</summary>
    private const int LeastWitnessed = 2;

    /// <summary>
    /// How long a unit may keep its speed without current before it is the meter's, seconds. A supply that a loose
    /// connector opens lets it coast unbraked, but not at the speed it had.
    /// </summary>
    private const double TurnsWithoutCurrentS = 0.35;
    private const double KeptSpeedShare = 0.8;

    private readonly CoastPredictor _coast = new();
    private readonly MotionTracker _tracker = new(profile.Ring);
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
        int from = sampler.Position.Ok ? sampler.Position.Count : LastCount(first);
        int travel = Travel(command, from);
        TimeSpan expectedOn = ExpectedOn(travel);
        await RestAsync(expectedOn, cancel);

        _currents.Clear();
        double onS = await SwitchOnAsync(command.Direction, expectedOn, cancel);
        await clock.WaitAsync(sampler.CycleS * NextPhase(command), cancel);
        _tracker.Reset();
        double offS;
        MoveEnd end;
        double? expected = null;
        try
        {
            (end, expected) = await WatchAsync(command.Direction, travel, onS, cancel);
            offS = clock.NowS;
        }
        catch (Exception e) when (e is OperationCanceledException or RunAbortedException or BoardChangedException)
        {
            await SwitchOffAsync();
            throw;
        }

        double travelledAtOff = _tracker.TravelledAt(offS);
        double speedAtOff = _tracker.Speed;
        long failedBefore = sampler.BenchFailures;
        await SwitchOffAsync();
        int offFailures = (int)(sampler.BenchFailures - failedBefore);
        if (end == MoveEnd.FeedbackLost)
        {
            await TellUnitFromBenchAsync(cancel);
        }

        await SettleAsync(command.SettleS, cancel);
        if (end == MoveEnd.Landed && sampler.Position.Ok && offFailures == 0)
        {
            _coast.Add(command.Direction, _tracker.Travelled - travelledAtOff, speedAtOff);
        }

        sampler.Flush();
        return new Move
        {
            Number = ++_number,
            Stage = command.Stage,
            FromPort = command.From?.Name,
            ToPort = command.To?.Name,
            Direction = command.Direction,
            TargetCount = profile.Ring.Place((long)from + travel),
            TravelCounts = travel,
            DriveOnS = onS,
            DriveOffS = offS,
            SettledS = clock.NowS,
            End = end,
            ExpectedCoastCounts = expected,
            OffFailures = offFailures,
            FirstSample = first,
            SampleCount = trace.Count - first,
        };
    }

    private int Travel(MoveCommand command, int from)
    {
        int n = profile.Ring.Counts;
        bool up = command.Direction == DriveDirection.Up;
        int turn = up ? n : -n;
        int travel = command.Revolutions * turn;
        if (command.To is { } to)
        {
            travel += profile.Ring.Travel(from, to.Count, up);
            if (Math.Abs(travel) < LeastTravelShare * n)
            {
                travel += turn;
            }
        }

        return travel;
    }

    private TimeSpan ExpectedOn(int travel)
    {
        double most = profile.Safety.MostOnMs / 1000.0;
        double nominal = Math.Abs(travel) / profile.Electrical.RunningSpeedCountsPerS;
        return TimeSpan.FromSeconds(Math.Min(most, (nominal * 1.1) + 0.1));
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

    private int LastCount(int before)
    {
        for (int i = Math.Min(before, trace.Count) - 1; i >= 0; i--)
        {
            if (trace[i].HasCount)
            {
                return trace[i].Count;
            }
        }

        return 0;
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

    private async ValueTask RestAsync(TimeSpan expectedOn, CancellationToken cancel)
    {
        TimeSpan rest = gate.RestBefore(expectedOn);
        while (rest > TimeSpan.Zero)
        {
            await clock.WaitAsync(Math.Min(rest.TotalSeconds + 0.001, 0.25), cancel);
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            rest = gate.RestBefore(expectedOn);
        }
    }

    private async ValueTask<double> SwitchOnAsync(DriveDirection direction, TimeSpan expectedOn, CancellationToken cancel)
    {
        const int tries = 3;
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                sampler.Flush();
                await gate.SwitchOnAsync(direction, expectedOn, cancel);
                sampler.Drive = direction == DriveDirection.Up ? DriveState.Up : DriveState.Down;
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

    private async ValueTask<(MoveEnd End, double? ExpectedCoast)> WatchAsync(
        DriveDirection direction, int travel, double onS, CancellationToken cancel)
    {
        double sign = Math.Sign(travel);
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

            if (sampler.Position.Ok)
            {
                _tracker.Add(sampler.PositionS, sampler.Position.Count);
                heardS = sampler.PositionS;
            }

            double nowS = clock.NowS;
            flowedS = sampler.Meters.CurrentA >= profile.Electrical.NoLoadCurrentA / 2 ? nowS : flowedS;
            if (nowS - flowedS > TurnsWithoutCurrentS && sampler.MeterFailures == 0
                && Math.Abs(_tracker.Speed) > KeptSpeedShare * profile.Electrical.RunningSpeedCountsPerS)
            {
                throw new RunAbortedException(AbortReason.BenchFault, "the unit turns and the current meter shows nothing, so it can't see an over-current either: check the meter and its wiring");
            }

            if (metered && sampler.MeterFailures == 0 && gate.TakeCurrent(sampler.Meters.CurrentA) is { } hot)
            {
                book.WriteSoon(RunEventKind.Fault, hot);
                return (MoveEnd.OverTime, null);
            }

            if (!asked)
            {
                _slotS += 0.2 * (nowS - beganS - _slotS);
            }

            if (Trouble(nowS, onS, heardS) is { } end)
            {
                await BlameUnitOnlyIfDrivenAsync(end, cancel);
                return (end, null);
            }

            // At the end of this slot the next reading would come too late: switch off at the instant itself.
            double speed = _tracker.Speed;
            if (_tracker.HasReading && speed * sign > 0.25 * profile.Electrical.RunningSpeedCountsPerS)
            {
                double coast = _coast.Expect(direction, speed);
                double toGo = travel - coast - _tracker.TravelledAt(nowS);
                double offInS = toGo / speed;
                if (offInS < 1.5 * _slotS)
                {
                    await clock.WaitAsync(offInS, cancel);
                    return (MoveEnd.Landed, _coast.Knows(direction) ? coast : null);
                }
            }
        }
    }

    private MoveEnd? Trouble(double nowS, double onS, double heardS)
    {
        if ((nowS - heardS) * 1000 > profile.Safety.FeedbackLostMs)
        {
            return MoveEnd.FeedbackLost;
        }

        double stillSince = double.IsNaN(_tracker.MovedS) ? onS : Math.Max(onS, _tracker.MovedS);
        if ((nowS - stillSince) * 1000 > profile.Safety.NoMotionMs)
        {
            return StillBecause();
        }

        return (nowS - onS) * 1000 > profile.Safety.MostOnMs ? MoveEnd.OverTime : null;
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

    // A unit that stands still is to blame only while it is driven: a board that restarted has let go of it.
    private async ValueTask BlameUnitOnlyIfDrivenAsync(MoveEnd end, CancellationToken cancel)
    {
        if (end is MoveEnd.Stalled or MoveEnd.NoCurrent or MoveEnd.CountStill or MoveEnd.OverTime
            && !await gate.CheckOutputsAsync(cancel))
        {
            throw new RunAbortedException(AbortReason.BenchFault, "the unit stands still and the board does not say whether it is driven: check the board and its link with 'bench check'");
        }
    }

    // A silent feedback is the unit's only if the bench's own devices answered while it was silent, and still do.
    private async ValueTask TellUnitFromBenchAsync(CancellationToken cancel)
    {
        if (sampler.WitnessedFailures < LeastWitnessed)
        {
            throw new RunAbortedException(AbortReason.BenchFault, "feedback and bench devices stopped answering together for a while: check the link with 'bench check'");
        }

        for (int i = 0; i < RunGuard.MostMeterFailures; i++)
        {
            await sampler.ReadMetersAsync(cancel);
            if (sampler.MeterFault is null)
            {
                return;
            }
        }

        throw new RunAbortedException(AbortReason.BenchFault, $"feedback and bench devices stopped answering together ({sampler.MeterFault!.Detail}): check the link with 'bench check'");
    }

    private async ValueTask SettleAsync(double settleS, CancellationToken cancel)
    {
        double untilS = clock.NowS + settleS;
        while (clock.NowS < untilS)
        {
            await sampler.SlotAsync(cancel);
            if (sampler.Position.Ok && _tracker.HasReading)
            {
                _tracker.Add(sampler.PositionS, sampler.Position.Count);
            }

            guard.WhileOff();
        }
    }
}
