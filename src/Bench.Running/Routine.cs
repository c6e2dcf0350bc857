using Bench.Analysis.Extraction;
using Bench.Analysis.Sightings;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Running.Hands;
using Bench.Running.Landing;
using Bench.Running.Moves;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running;

/// <summary>Runs the stages of a profile in order, and stops when there is evidence enough.</summary>
internal sealed class Routine(
    Profile profile, Sampler sampler, RunGuard guard, MoveRunner mover, RunExtraction extraction, Trace trace, RunBook book,
    IRunJournal journal, RunClock clock, IndexHoming? homing, ConnectorReseat reseat, UncoupledStage uncoupled, Func<RunFeatures> soFar,
    Symptom symptom, IRunObserver? observer)
{
    /// <summary>Time between readings with the drive off, seconds.</summary>
    private const double RestPaceS = 0.020;

    /// <summary>How long a lost feedback may take to come back, drive off, before the run goes on without it, seconds.</summary>
    private const double FeedbackReturnS = 2.0;

    private readonly List<Move> _moves = [];
    private bool _atPort;
    private int _port;

    /// <summary>Moves made so far.</summary>
    public IReadOnlyList<Move> Moves => _moves;

    /// <summary>Runs all stages, or as many as make sense.</summary>
    public async ValueTask RunAsync(CancellationToken cancel)
    {
        foreach (Stage stage in profile.Routine.Where(s => s.Kind != StageKind.Uncoupled))
        {
            book.Write(RunEventKind.Stage, $"stage {BenchJson.Word(stage.Kind)}");
            Tell(stage, "begins");
            string? ended = stage.Kind switch
            {
                StageKind.Supply => await SupplyAsync(stage, cancel),
                StageKind.Homing => await HomingAsync(stage, cancel),
                StageKind.PortMoves => await PortMovesAsync(stage, cancel),
                _ => await EnduranceAsync(stage, cancel),
            };
            if (ended is not null)
            {
                book.Write(RunEventKind.Note, $"no further stages: {ended}");
                break;
            }
        }

        if (profile.Routine.FirstOrDefault(s => s.Kind == StageKind.Uncoupled) is { } last)
        {
            await UncoupledAsync(last, cancel);
        }
    }

    // A unit that does not turn ends the stages that need it to, and is the very one this stage is for.
    private async ValueTask UncoupledAsync(Stage stage, CancellationToken cancel)
    {
        if (_moves.Count == 0 || !uncoupled.Tells(soFar(), symptom))
        {
            return;
        }

        book.Write(RunEventKind.Stage, $"stage {BenchJson.Word(stage.Kind)}");
        Tell(stage, "the valve is to be taken off");
        if (await uncoupled.UncoupleAsync(cancel))
        {
            await sampler.ReadPositionAsync(cancel);
            await MakeAsync(stage, uncoupled.Command(stage, sampler.Position.Ok ? sampler.Position.Count : null), cancel);
        }
    }

    private async ValueTask<string?> SupplyAsync(Stage stage, CancellationToken cancel)
    {
        int first = trace.Count;
        double untilS = clock.NowS + stage.MostS;
        while (clock.NowS < untilS)
        {
            double nextS = clock.NowS + RestPaceS;
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            await clock.WaitAsync(nextS - clock.NowS, cancel);
        }

        sampler.Flush();
        List<double> volts = [];
        bool heard = false;
        foreach (Sample sample in trace.Slice(first, trace.Count - first))
        {
            heard |= sample.Heard;
            if (sample.HasMeters)
            {
                volts.Add(sample.VoltageV);
            }
        }

        volts.Sort();
        double supply = volts.Count == 0 ? 0 : volts[volts.Count / 2];
        if (supply < profile.Electrical.SupplyMinV || supply > profile.Electrical.SupplyMaxV)
        {
            return FormattableString.Invariant($"the supply stands at {supply:0.00} V, outside {profile.Electrical.SupplyMinV:0.0} to {profile.Electrical.SupplyMaxV:0.0} V");
        }

        return heard || await AnswersAfterReseatAsync(cancel) ? null : "the feedback does not answer, and a drive is not moved blind";
    }

    private async ValueTask<string?> HomingAsync(Stage stage, CancellationToken cancel)
    {
        DriveDirection direction = DriveDirection.Up;
        double endS = clock.NowS + stage.MostS;
        int revolutions = (int)Math.Round(stage.Revolutions);
        if (homing is not null)
        {
            if (await HomeByIndexAsync(stage, homing, Math.Max(revolutions, IndexHoming.Revolutions), endS, cancel) is { } homeless)
            {
                return homeless;
            }

            revolutions = 0;
        }

        if (profile.Drive == DriveKind.Commanded)
        {
            // It can't be told to turn on and on. By way of another port it surely moves.
            if (await MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, profile.Ports[1], 0, stage.SettleMs / 1000), cancel) is { } gone)
            {
                return gone;
            }

            revolutions = 0;
        }

        // By switches whole revolutions are counted at the port they end at.
        int onTheWay = profile.Feedback == FeedbackKind.Switches ? revolutions : 0;
        for (int tries = 0; tries < Math.Max(stage.MostMoves, 2) && clock.NowS < endS; tries++)
        {
            if (revolutions > onTheWay && tries == 0)
            {
                if (await MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, null, revolutions, stage.SettleMs / 1000), cancel) is { } lost)
                {
                    return lost;
                }
            }

            if (await MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, profile.Ports[0], tries == 0 ? onTheWay : 0, stage.SettleMs / 1000), cancel) is { } ended)
            {
                return ended;
            }

            if (_moves[^1].End == MoveEnd.Landed)
            {
                return null;
            }

            direction = Opposite(direction);
        }

        return null;
    }

    // Twice at most: a reading may be lost just at an edge.
    private async ValueTask<string?> HomeByIndexAsync(Stage stage, IndexHoming homing, int revolutions, double endS, CancellationToken cancel)
    {
        const int tries = 2;
        for (int attempt = 1; attempt <= tries && clock.NowS < endS && homing.HasIndex; attempt++)
        {
            MoveCommand command = new(stage.Kind, DriveDirection.Up, null, null, revolutions, stage.SettleMs / 1000, Relative: true);
            if (await MakeAsync(stage, command, cancel) is { } ended)
            {
                return ended;
            }

            if (homing.Take(trace, _moves[^1]) is { } taken)
            {
                book.Write(RunEventKind.Note, taken);

                // Counts have moved and the unit has not.
                guard.Off();
                return null;
            }
        }

        return homing.HasIndex
            ? "the index did not come, so the counter's home is not known and no port can be told"
            : "the bench has no index input, so the counter's home is not known and no port can be told";
    }

    private async ValueTask<string?> PortMovesAsync(Stage stage, CancellationToken cancel)
    {
        double endS = clock.NowS + stage.MostS;
        int made = 0;
        foreach ((int to, DriveDirection direction) in PortTour.Make(profile.Ports.Count, profile.CanReverse))
        {
            if (made++ >= stage.MostMoves || clock.NowS >= endS)
            {
                return null;
            }

            if (await ToPortAsync(stage, to, direction, cancel) is { } ended)
            {
                return ended;
            }
        }

        return null;
    }

    private async ValueTask<string?> EnduranceAsync(Stage stage, CancellationToken cancel)
    {
        double endS = clock.NowS + stage.MostS;
        for (int made = 0; made < stage.MostMoves && clock.NowS < endS; made++)
        {
            if (extraction.Evidence.Enough)
            {
                return extraction.Evidence.Because;
            }

            (int to, DriveDirection direction) = profile.Drive == DriveKind.Commanded
                ? (EnduranceTour.NextOfShortWays(made, _port, profile.Ports.Count), DriveDirection.Up)
                : EnduranceTour.Next(made, _port, profile.Ports.Count, profile.CanReverse);
            int turns = EnduranceTour.WholeTurns(extraction.Evidence, profile);
            if (await ToPortAsync(stage, to, direction, cancel, turns) is { } ended)
            {
                return ended;
            }
        }

        return null;
    }

    private ValueTask<string?> ToPortAsync(Stage stage, int to, DriveDirection direction, CancellationToken cancel, int turns = 0) =>
        MakeAsync(
            stage,
            new MoveCommand(stage.Kind, direction, _atPort ? profile.Ports[_port] : null, profile.Ports[to], turns, stage.SettleMs / 1000),
            cancel);

    // Makes a move, takes it down and looks at it. The answer is why no further move makes sense, or null.
    private async ValueTask<string?> MakeAsync(Stage stage, MoveCommand command, CancellationToken cancel)
    {
        Tell(stage, command.To is { } to ? $"move to port {to.Name}, {BenchJson.Word(command.Direction)}" : $"{command.Revolutions} revolutions {BenchJson.Word(command.Direction)}");
        Move move = await mover.RunAsync(command, cancel);
        bool answers = sampler.Position.Heard || await FeedbackReturnsAsync(cancel);
        if (!answers && await AnswersAfterReseatAsync(cancel))
        {
            // A plug that was not home says nothing of the unit.
            move = move with { End = MoveEnd.Interrupted };
            answers = true;
        }

        TakeDown(move, command);
        if (!answers)
        {
            return "the feedback stopped answering and did not come back";
        }

        return extraction.Evidence.StillInARow >= EvidenceState.MostStillInARow ? extraction.Evidence.Because : null;
    }

    private void TakeDown(Move move, MoveCommand command)
    {
        _moves.Add(move);
        journal.Write(move);
        extraction.AddMove(trace, move);
        _atPort = command.To is not null && move.End == MoveEnd.Landed;
        if (command.To is { } port)
        {
            _port = profile.Ports.ToList().IndexOf(port);
        }

        if (move.End != MoveEnd.Landed)
        {
            book.Write(RunEventKind.Note, $"move {move.Number} ended: {BenchJson.Word(move.End)}");
        }
    }

    private async ValueTask<bool> AnswersAfterReseatAsync(CancellationToken cancel)
    {
        if (!await reseat.TryAsync(cancel) || !await FeedbackReturnsAsync(cancel))
        {
            return false;
        }

        reseat.Answered();
        return true;
    }

    private async ValueTask<bool> FeedbackReturnsAsync(CancellationToken cancel)
    {
        double untilS = clock.NowS + FeedbackReturnS;
        while (clock.NowS < untilS)
        {
            await clock.WaitAsync(RestPaceS, cancel);
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            if (sampler.Position.Heard)
            {
                return true;
            }
        }

        return false;
    }

    private DriveDirection Opposite(DriveDirection direction) =>
        profile.CanReverse && direction == DriveDirection.Up ? DriveDirection.Down : DriveDirection.Up;

    private void Tell(Stage stage, string text)
    {
        EvidenceState evidence = extraction.Evidence;
        observer?.Progress(new RunProgress(stage.Kind, _moves.Count, clock.NowS, RemainingS(stage), evidence.Coverage, text));
    }

    // What is left of the sequential test and of the ring, whichever takes longer, at nominal speed.
    private double? RemainingS(Stage stage)
    {
        double revolutionS = profile.Ring.Counts / profile.Electrical.RunningSpeedCountsPerS;
        double moveS = (SightingPlan.RevolutionsPerMove * revolutionS) + (stage.SettleMs / 1000);
        double test = extraction.Evidence.MovesToGo * moveS;
        double ring = extraction.Evidence.RevolutionsToGo * revolutionS * 1.2;
        return Math.Max(test, ring);
    }
}
