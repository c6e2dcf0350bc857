using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>Drive off: the supply must lie in its range and the feedback answer before anything is moved.</summary>
internal sealed class RestStage(
    Profile profile, Sampler sampler, Resting resting, Trace trace, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => StageKind.Supply;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "begins");
        int first = trace.Count;
        await resting.ForAsync(stage.MostS, cancel);
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

        return heard || await moves.AnswersAfterReseatAsync(cancel) ? null : "the feedback does not answer, and a drive is not moved blind";
    }
}
