using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Moves;
using Bench.Running.Safety;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: turns on and on until the winding is estimated warm or the time is over, then makes moves from port to port
/// while it is. What opens when it expands, opens then. Each turn asks the gate as any move does: duty and heat hold (S7).
/// </summary>
internal sealed class WarmStage(
    Profile profile, SafetyGate gate, ProvokedMoves provoked, MoveSequence moves, RunClock clock, RunBook book, StageReport report,
    Func<RunFeatures> soFar) : IStageRunner
{
    /// <summary>Share of the longest on-time that one turn is planned for: a slow unit must not be cut off.</summary>
    private const double PlannedOnShare = 0.75;

    /// <summary>Rest between two turns besides what duty asks for, seconds.</summary>
    private const double BetweenS = 0.1;

    /// <inheritdoc/>
    public StageKind Kind => StageKind.Warm;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "turns until the winding is warm, to provoke the fault");
        double beganS = clock.NowS;
        DriveDirection direction = DriveDirection.Up;
        while (gate.WindingCelsius < stage.WarmCelsius && clock.NowS - beganS < stage.MostS)
        {
            if (await moves.MakeAsync(stage, new MoveCommand(stage.Kind, direction, null, null, Revolutions, BetweenS), cancel) is { } ended)
            {
                return ended;
            }

            if (moves.Moves[^1].End != MoveEnd.Landed)
            {
                // It may be what is looked for, and gone again once it cools.
                break;
            }

            direction = profile.CanReverse && direction == DriveDirection.Up ? DriveDirection.Down : DriveDirection.Up;
        }

        book.Write(RunEventKind.Note, FormattableString.Invariant(
            $"{StageNotes.WindingEstimated}{gate.WindingCelsius:0.0} °C after {clock.NowS - beganS:0} s of turning; {stage.WarmCelsius:0.0} °C were asked for"));
        double? fromCelsius = gate.WindingCelsius;
        string? over = await provoked.RunAsync(stage, made => Command(stage, made), cancel);
        TellRise((fromCelsius + gate.WindingCelsius) / 2);
        return over;
    }

    // The estimate guards the winding; the winding itself says by its resistance how good the estimate is.
    private void TellRise(double? celsius)
    {
        if (celsius is not double warm || profile.Safety.Winding is not { } limits
            || soFar().Features.FirstOrDefault(f => f.Name == "winding.rise_k") is not { Value: double riseK, ExpandedUncertainty: double withinK })
        {
            return;
        }

        double estimateK = warm - limits.AmbientCelsius;
        string verdict = riseK - withinK > estimateK ? "lies below that and would not have guarded the winding: mend [safety.winding] of the profile before the next run"
            : riseK + withinK < estimateK ? "lies above that, on the safe side: the winding was less warm than was asked for"
            : "agrees";
        book.Write(RunEventKind.Note, FormattableString.Invariant(
            $"{StageNotes.WindingRose}{riseK:0.0} K ± {withinK:0.0} K; the estimate of {estimateK:0.0} K {verdict}"));
    }

    private int Revolutions
    {
        get
        {
            double onS = PlannedOnShare * profile.Safety.MostOnMs / 1000.0;
            return Math.Max(1, (int)Math.Floor(onS * profile.Electrical.RunningSpeedCountsPerS / profile.Ring.Counts));
        }
    }

    private MoveCommand Command(Stage stage, int made)
    {
        (int next, DriveDirection direction) = EnduranceTour.Next(made, moves.Port, profile.Ports.Count, profile.CanReverse);
        return new MoveCommand(stage.Kind, direction, null, profile.Ports[next], 0, stage.SettleMs / 1000);
    }
}
