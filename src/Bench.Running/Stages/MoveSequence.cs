using Bench.Analysis.Extraction;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Running.Hands;
using Bench.Running.Moves;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>The moves of a run, one after the other: each made, taken down and looked at, and where the unit stands after it.</summary>
internal sealed class MoveSequence(
    Profile profile, SafetyGate gate, Sampler sampler, RunGuard guard, MoveRunner mover, RunExtraction extraction, Trace trace, RunBook book,
    IRunJournal journal, RunClock clock, ConnectorReseat reseat, StageReport report)
{
    /// <summary>How long a lost feedback may take to come back, drive off, before the run goes on without it, seconds.</summary>
    private const double FeedbackReturnS = 2.0;

    private readonly List<Move> _moves = [];
    private readonly List<double?> _celsius = [];
    private bool _atPort;

    /// <summary>Moves made so far.</summary>
    public IReadOnlyList<Move> Moves => _moves;

    /// <summary>Estimated temperature of the winding after each of them, degrees Celsius; null where nothing is known of it.</summary>
    public IReadOnlyList<double?> WindingCelsius => _celsius;

    /// <summary>Index of the port that the latest move was commanded to.</summary>
    public int Port { get; private set; }

    /// <summary>Moves on to a port.</summary>
    /// <returns>Why no further move makes sense; null when one does.</returns>
    public ValueTask<string?> ToPortAsync(Stage stage, int to, DriveDirection direction, CancellationToken cancel, int turns = 0) =>
        MakeAsync(
            stage,
            new MoveCommand(stage.Kind, direction, _atPort ? profile.Ports[Port] : null, profile.Ports[to], turns, stage.SettleMs / 1000),
            cancel);

    /// <summary>Makes a move, takes it down and looks at it.</summary>
    /// <returns>Why no further move makes sense; null when one does.</returns>
    public async ValueTask<string?> MakeAsync(Stage stage, MoveCommand command, CancellationToken cancel)
    {
        report.Tell(stage, $"{Words(command)} {BenchJson.Word(command.Direction)}");
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

    /// <summary>Has the feedback's connector reseated, and looks whether the feedback answers then.</summary>
    public async ValueTask<bool> AnswersAfterReseatAsync(CancellationToken cancel)
    {
        if (!await reseat.TryAsync(cancel) || !await FeedbackReturnsAsync(cancel))
        {
            return false;
        }

        reseat.Answered();
        return true;
    }

    private static string Words(MoveCommand command) =>
        command.To is { } to ? $"move to port {to.Name},"
        : command.TravelCounts is int counts ? $"{counts} counts"
        : $"{command.Revolutions} revolutions";

    private void TakeDown(Move move, MoveCommand command)
    {
        _moves.Add(move);
        _celsius.Add(gate.WindingCelsius);
        report.MoveMade();
        journal.Write(move);
        extraction.AddMove(trace, move);
        _atPort = command.To is not null && move.End == MoveEnd.Landed;
        if (command.To is { } port)
        {
            Port = profile.Ports.ToList().IndexOf(port);
        }

        if (move.End != MoveEnd.Landed)
        {
            book.Write(RunEventKind.Note, $"move {move.Number} ended: {BenchJson.Word(move.End)}");
        }
    }

    private async ValueTask<bool> FeedbackReturnsAsync(CancellationToken cancel)
    {
        double untilS = clock.NowS + FeedbackReturnS;
        while (clock.NowS < untilS)
        {
            await clock.WaitAsync(Resting.PaceS, cancel);
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            if (sampler.Position.Heard)
            {
                return true;
            }
        }

        return false;
    }
}
