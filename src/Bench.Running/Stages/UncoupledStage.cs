using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running.Hands;
using Bench.Running.Moves;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>
/// A locked unit may have a seized valve or a seized motor, and only the unit with its valve off tells. Has a person take it
/// off, and makes one short move. The last thing a run does: without its valve the unit is no longer what came in.
/// </summary>
internal sealed class UncoupledStage(
    Profile profile, HandsAtUnit hands, Sampler sampler, RunBook book, MoveSequence moves, StageReport report, Func<RunFeatures> soFar, Symptom symptom)
    : IStageRunner
{
    /// <summary>Travel aimed at, share of the ring: long enough to turn at speed, and over within a second and a half.</summary>
    private const double TravelShare = 1.0 / 3;

    /// <inheritdoc/>
    public StageKind Kind => StageKind.Uncoupled;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        if (moves.Moves.Count == 0 || !Tells())
        {
            return null;
        }

        report.Begin(stage, "the valve is to be taken off");
        if (!await hands.DoneAsync(Task(stage.MostS), cancel))
        {
            book.Write(RunEventKind.Note, "no move without the valve: valve and motor are not told apart");
            return null;
        }

        await sampler.ReadPositionAsync(cancel);
        return await moves.MakeAsync(stage, Command(stage, sampler.Position.Ok ? sampler.Position.Count : null), cancel);
    }

    // The unit is locked, and its two likeliest causes differ in what it does without its valve.
    private bool Tells()
    {
        Judgement judgement = Judge.Decide(soFar(), profile, symptom);
        return judgement.Findings.Any(IsLocked) && RivalCauses.ToldBy(UncoupledFeatures.Locked, judgement, profile);
    }

    // Towards the port nearest to a third of the ring ahead of where the unit stands.
    private MoveCommand Command(Stage stage, int? count)
    {
        double third = TravelShare * profile.Ring.Counts;
        Port to = profile.Ports.MinBy(p => Math.Abs(profile.Ring.Travel(count ?? 0, p.Count, up: true) - third))!;
        return new MoveCommand(stage.Kind, DriveDirection.Up, null, to, 0, stage.SettleMs / 1000, MostOnS: stage.MostS) { CurrentA = profile.Electrical.StallCurrentA };
    }

    private static bool IsLocked(Finding finding) =>
        finding is { Feature.Name: "motion.locked_moves", Decision: FindingDecision.DoesNotConform };

    private HandTask Task(double mostS) => new(
        HandWork.UncoupleValve,
        "the valve is to be uncoupled",
        "the valve was uncoupled",
        "The unit stands still at stall current: its valve or its motor is seized, and the unit without its valve tells which",
        [
            "Release the pressure stored in the valve first: it may hold hot or harmful fluid. Eye protection on.",
            "Isolate the supply at the position and wait until it is discharged.",
            "Uncouple the valve from the shaft. Leave motor, gear and encoder as they are, and their connectors plugged in.",
            "Hands, tools and loose parts clear of the free shaft: it turns by itself, and faster than before.",
            "Supply back on; polarity and current limit as confirmed before.",
            FormattableString.Invariant($"The bench then drives it once, for at most {mostS:0.#} s. A free motor turns at about {profile.Electrical.NoLoadCurrentA:0.00} A, so the valve is seized; one that stands still at about {profile.Electrical.StallCurrentA:0.0} A is seized itself."),
        ]);
}
