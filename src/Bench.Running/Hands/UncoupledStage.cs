using Bench.Analysis.Judging;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running.Moves;

namespace Bench.Running.Hands;

/// <summary>
/// A locked unit may have a seized valve or a seized motor, and only the unit with its valve off tells. Has a person take it
/// off, and makes one short move. The last thing a run does: without its valve the unit is no longer what came in.
/// </summary>
internal sealed class UncoupledStage(Profile profile, HandsAtUnit hands, RunBook book)
{
    /// <summary>Travel aimed at, share of the ring: long enough to turn at speed, and over within a second and a half.</summary>
    private const double TravelShare = 1.0 / 3;

    /// <summary>Whether the move would tell something after these features: the unit is locked, and its two likeliest causes differ in it.</summary>
    public bool Tells(RunFeatures soFar, Symptom symptom)
    {
        Judgement judgement = Judge.Decide(soFar, profile, symptom);
        return judgement.Findings.Any(IsLocked) && RivalCauses.ToldBy(UncoupledFeatures.Locked, judgement, profile);
    }

    /// <summary>Has the valve taken off.</summary>
    /// <returns>Whether it is off.</returns>
    public async ValueTask<bool> UncoupleAsync(CancellationToken cancel)
    {
        if (await hands.DoneAsync(Task(), cancel))
        {
            return true;
        }

        book.Write(RunEventKind.Note, "no move without the valve: valve and motor are not told apart");
        return false;
    }

    /// <summary>The one move: towards the port nearest to a third of the ring ahead of where the unit stands.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="count">Where it stands; null when not known.</param>
    public MoveCommand Command(Stage stage, int? count)
    {
        double third = TravelShare * profile.Ring.Counts;
        Port to = profile.Ports.MinBy(p => Math.Abs(profile.Ring.Travel(count ?? 0, p.Count, up: true) - third))!;
        return new MoveCommand(stage.Kind, DriveDirection.Up, null, to, 0, stage.SettleMs / 1000, MostOnS: stage.MostS);
    }

    private static bool IsLocked(Finding finding) =>
        finding is { Feature.Name: "motion.locked_moves", Decision: FindingDecision.DoesNotConform };

    private HandTask Task() => new(
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
            FormattableString.Invariant($"The bench then drives it once, for at most {MostS:0.#} s. A free motor turns at about {profile.Electrical.NoLoadCurrentA:0.00} A, so the valve is seized; one that stands still at about {profile.Electrical.StallCurrentA:0.0} A is seized itself."),
        ]);

    private double MostS => profile.Routine.First(s => s.Kind == StageKind.Uncoupled).MostS;
}
