using Bench.Analysis.Motor;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Moves;
using Bench.Running.Safety;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: warms the winding by short starts, whose inrush heats more than turning does, until it is estimated warm or the
/// time is over, then makes moves from port to port while it is. What opens when it expands, opens then. Each start asks the
/// gate as any move does: duty and heat hold (S7).
/// </summary>
internal sealed class WarmStage(
    Profile profile, SafetyGate gate, ShortStarts starts, ProvokedMoves provoked, MoveSequence moves, RunClock clock, RunBook book, StageReport report,
    Func<RunFeatures> soFar) : IStageRunner
{
    /// <summary>Rest between two starts besides what duty asks for, seconds.</summary>
    private const double BetweenS = 0.1;

    /// <inheritdoc/>
    public StageKind Kind => StageKind.Warm;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "starts until the winding is warm, to provoke the fault");
        double beganS = clock.NowS;
        for (int made = 0; gate.WindingCelsius < stage.WarmCelsius && clock.NowS - beganS < stage.MostS; made++)
        {
            if (await moves.MakeAsync(stage, starts.Command(stage.Kind, made, BetweenS), cancel) is { } ended)
            {
                return ended;
            }

            if (moves.Moves[^1].End != MoveEnd.Landed)
            {
                // It may be what is looked for, and gone again once it cools.
                break;
            }
        }

        book.Write(RunEventKind.Note, FormattableString.Invariant(
            $"{StageNotes.WindingEstimated}{gate.WindingCelsius:0.0} °C after {clock.NowS - beganS:0} s of starts; {stage.WarmCelsius:0.0} °C were asked for"));
        int before = moves.Moves.Count;
        string? over = await provoked.RunAsync(stage, made => EnduranceTour.Command(profile, stage, made, moves.Port), cancel);
        if (moves.Moves.Count > before && moves.Moves.Skip(before).All(m => m.End == MoveEnd.Landed))
        {
            TellRise(Median(moves.WindingCelsius.Skip(before)) - Median(moves.WindingCelsius.Take(WindingRise.ColdMoves)));
        }

        return over;
    }

    // The estimate guards the winding; the winding itself says by its resistance how good the estimate is.
    private void TellRise(double? estimateK)
    {
        if (estimateK is null
            || soFar().Features.FirstOrDefault(f => f.Name == "winding.rise_k") is not { Value: double riseK, ExpandedUncertainty: double withinK })
        {
            return;
        }

        string verdict = riseK - withinK > estimateK ? "lies below that and would not have guarded the winding: mend [safety.winding] of the profile before the next run"
            : riseK + withinK < estimateK ? "lies above that, on the safe side: the winding was less warm than was asked for"
            : "agrees";
        book.Write(RunEventKind.Note, FormattableString.Invariant(
            $"{StageNotes.WindingRose}{riseK:0.0} K ± {withinK:0.0} K; the estimate of {estimateK:0.0} K {verdict}"));
    }

    private static double? Median(IEnumerable<double?> celsius)
    {
        double[] sorted = [.. celsius.OfType<double>().Order()];
        return sorted.Length == 0 ? null : sorted[sorted.Length / 2];
    }
}
