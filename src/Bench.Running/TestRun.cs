using System.Globalization;
using Bench.Analysis.Extraction;
using Bench.Analysis.Judging;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Safety;
using Bench.Model.Traces;
using Bench.Running.Hands;
using Bench.Running.Landing;
using Bench.Running.Moves;
using Bench.Running.Safety;
using Bench.Running.Sampling;
using Bench.Running.Stages;

namespace Bench.Running;

/// <summary>
/// One run from safe state to sealed record (design, section 4). Whatever happens, outputs are off and confirmed at
/// its end, or the record says that they are not.
/// </summary>
public sealed class TestRun
{
    /// <summary>From here on a wall clock was set, not corrected, seconds (common practice, no source: time services step from 0.1 to 1 s on).</summary>
    private const double WallStepS = 1;

    private readonly RunRequest _request;
    private readonly Profile _profile;
    private readonly RunClock _clock;
    private readonly RunBook _book;
    private readonly Trace _trace = new();

    /// <summary>Prepares a run; touches nothing.</summary>
    public TestRun(RunRequest request)
    {
        _request = request;
        _profile = request.Start.Profile;
        _clock = new RunClock(request.Time);
        _book = new RunBook(_clock, request.Journal);
    }

    /// <summary>Runs it.</summary>
    /// <param name="cancel">Stops the run: drive off, confirmed, what was recorded kept.</param>
    /// <returns>The record, sealed in the journal.</returns>
    /// <exception cref="JournalException">The store can't take the run; outputs are off and confirmed all the same.</exception>
    /// <exception cref="OutputNotConfirmedException">As above, and off can't be confirmed.</exception>
    public async Task<RunRecord> ExecuteAsync(CancellationToken cancel)
    {
        using SafetyGate gate = new(
            _request.Position.Drive, _request.Position.Watchdogs, _profile.Drive, _profile.Safety, WindingHeat.For(_profile), _request.Time, _book,
            SupplyVoltage.Allowed(_request.Power, _profile));
        Sampler sampler = new(_request.Position, _clock, _trace, _request.Journal);
        RunExtraction extraction = new(_profile, _request.Start.Bench);
        RunGuard guard = new(_profile, gate, sampler, _clock);
        SupplySwitch power = new(_request.Power, _book);
        SupplyVoltage supply = new(_request.Power, _profile, gate, guard, sampler, _clock, _book);
        MoveRunner mover = new(_profile, gate, guard, sampler, _clock, _trace, _book);
        HandsAtUnit hands = new(_request.Start.Return.Serial, _request.Operator, gate, guard, sampler, _clock, _book);
        ConnectorReseat reseat = new(hands, _clock);
        StageReport report = new(_profile, extraction, _book, _clock, _request.Observer);
        MoveSequence moves = new(
            _profile, gate, sampler, guard, mover, extraction, _trace, _book, _request.Journal, _clock, reseat, report);
        Resting resting = new(sampler, guard, _clock);
        CurrentReturn current = new(moves, resting, _clock, _book, report);
        ProvokedMoves provoked = new(extraction, _clock, moves, current);
        ShortStarts starts = new(_profile, moves);
        Symptom symptom = _request.Start.Return.Symptom;
        StageRunners runners = new(
            new RestStage(_profile, sampler, resting, _trace, moves, report),
            new HomingStage(
                _profile, guard, _trace, _book, _clock, IndexHoming.For(_profile, _request.Position.Feedback, _request.Start.Bench), moves, report),
            new PortMovesStage(_profile, _clock, moves, report),
            new EnduranceStage(_profile, extraction, _clock, moves, report),
            new StartsStage(starts, provoked, report),
            new SupplyMovesStage(StageKind.LowSupply, _profile, supply, provoked, moves, report),
            new SupplyMovesStage(StageKind.HighSupply, _profile, supply, provoked, moves, report),
            new ConnectorStage(_profile, hands, gate, sampler, extraction, _book, _clock, report),
            new WarmStage(_profile, gate, starts, provoked, moves, _clock, _book, report, SoFar),
            new UncoupledStage(_profile, hands, sampler, _book, moves, report, SoFar, symptom));
        Routine routine = new(
            _profile, runners, new ProvokingStages(_profile, runners, extraction, sampler, _trace, _book, SoFar, symptom), moves, current, _book);
        RunFeatures SoFar() => Features(extraction, sampler, reseat);

        RunAbortedException? abort = null;
        try
        {
            await PrepareAsync(gate, power, cancel);
            TellPlan();
            await routine.RunAsync(cancel);
        }
        catch (RunAbortedException e)
        {
            abort = e;
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            abort = new RunAbortedException(AbortReason.Cancelled, "stopped by a person; start a new run when ready");
        }
        catch (OutputNotConfirmedException e)
        {
            abort = new RunAbortedException(AbortReason.OutputNotConfirmed, e.Message);
        }
        catch (BoardChangedException e)
        {
            abort = new RunAbortedException(AbortReason.BenchFault, e.Message);
        }
        catch (GateRefusedException e)
        {
            abort = new RunAbortedException(AbortReason.Defect, $"the gate refused: {e.Message}");
        }
        finally
        {
            await EndSafelyAsync(gate);
            abort = await SeeRestAsync(gate, guard) ?? abort;
            await power.OffAsync(gate.ConfirmedOff);

            // With its output off, so that nothing is raised under a unit.
            await supply.RestoreAtEndAsync();
        }

        if (gate.State == GateState.Tripped && abort is null)
        {
            abort = new RunAbortedException(gate.ConfirmedOff ? AbortReason.Defect : AbortReason.OutputNotConfirmed, gate.TrippedBecause!);
        }

        if (abort is not null)
        {
            _book.Write(RunEventKind.Fault, abort.Message);
        }

        TellClock();
        sampler.Flush();
        RunRecord record = Record(gate, moves, extraction, sampler, reseat, abort);
        _request.Journal.Seal(record, _trace);
        return record;
    }

    private void TellClock()
    {
        double s = _clock.WallSetBy.TotalSeconds;
        if (Math.Abs(s) >= WallStepS)
        {
            _book.Write(RunEventKind.Note, string.Create(
                CultureInfo.InvariantCulture,
                $"The computer's clock was set {(s < 0 ? "back" : "forward")} by {Math.Abs(s):0} s during the run. All times of the run count from its start and are not moved by that; check the clock."));
        }
    }

    private void TellPlan()
    {
        foreach (string line in PlanLine.AllOf(_profile))
        {
            _book.Write(RunEventKind.Note, line);
            _request.Observer?.Progress(new RunProgress(null, 0, _clock.NowS, null, 0, line));
        }
    }

    private async ValueTask PrepareAsync(SafetyGate gate, SupplySwitch power, CancellationToken cancel)
    {
        try
        {
            await gate.ConfirmSafeStateAsync();
        }
        catch (OutputNotConfirmedException e)
        {
            throw new RunAbortedException(AbortReason.BenchFault, $"the safe state can't be read back before the run, and nothing was energised: {e.Message}. 'bench check' says which device does not answer.");
        }
        catch (GateRefusedException e)
        {
            throw new RunAbortedException(AbortReason.BenchFault, $"{e.Message}, and nothing was energised: check [device.watchdog] in the bench file against the board's manual, and the board with 'bench check'.");
        }

        if (ArrivalInspection.WhyNotToEnergise(_request.Start.Return, _profile) is string forbidden)
        {
            throw new RunAbortedException(AbortReason.InspectionForbids, $"{forbidden}; nothing was energised");
        }

        UnitWiring wiring = UnitWiring.For(_request.Start);
        if (!await _request.Operator.ConfirmAsync(_request.Start.Return.Serial, Cautions.All, wiring.Lines, cancel))
        {
            throw new RunAbortedException(AbortReason.NotConfirmed, "cautions and wiring were not confirmed; nothing was energised");
        }

        gate.Confirm(_request.Start.Return.Serial);
        await power.OnAsync(cancel);
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
            // The gate has tripped with the reason; the record carries it.
        }
    }

    // Read-back shows coils, not contacts; whatever else ended the run, a unit that is still driven is what must be told.
    private static async ValueTask<RunAbortedException?> SeeRestAsync(SafetyGate gate, RunGuard guard)
    {
        if (!gate.ConfirmedOff)
        {
            return null;
        }

        try
        {
            await guard.SeeRestAsync();
            return null;
        }
        catch (OutputNotConfirmedException e)
        {
            return new RunAbortedException(AbortReason.OutputNotConfirmed, e.Message);
        }
        catch (JournalException)
        {
            // What ended the run is told already, or will be by the sealing; power goes off first.
            return null;
        }
    }

    private RunFeatures Features(RunExtraction extraction, Sampler sampler, ConnectorReseat reseat) => extraction.Complete(
        _trace, _request.Position.Counts, DateOnly.FromDateTime(_request.Time.GetUtcNow().UtcDateTime), sampler.HalfWidths, reseat.Trial);

    private RunRecord Record(SafetyGate gate, MoveSequence moves, RunExtraction extraction, Sampler sampler, ConnectorReseat reseat, RunAbortedException? abort)
    {
        bool hasMoves = moves.Moves.Count > 0 || _trace.Count > 0;
        RunFeatures? features = hasMoves ? Features(extraction, sampler, reseat) : null;
        Judgement? judgement = abort is null && features is not null
            ? Judge.Decide(features, _profile, _request.Start.Return)
            : null;
        return new RunRecord
        {
            Start = _request.Start,
            EndedAt = _request.Start.StartedAt + _clock.Elapsed,
            Outcome = judgement?.Outcome ?? RunOutcome.Aborted,
            Abort = abort?.Reason,
            AbortText = abort?.Message,
            OutputsConfirmedOff = gate.ConfirmedOff,
            Events = _book.Events,
            Moves = moves.Moves,
            Features = features,
            Judgement = judgement,
            Samples = _trace.Count,
        };
    }
}
