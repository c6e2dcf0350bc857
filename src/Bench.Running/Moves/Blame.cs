using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running.Moves;

/// <summary>Before a unit is blamed for a move, makes sure that it was not the bench.</summary>
internal sealed class Blame(SafetyGate gate, Sampler sampler)
{
    /// <summary>Failures of the feedback with the bench's own devices answering in between that make it the feedback's: one may be the end of a bus's.</summary>
    private const int LeastWitnessed = 2;

    /// <summary>A unit that stands still is to blame only while it is driven: a board that restarted has let go of it.</summary>
    /// <exception cref="RunAbortedException">The board does not say whether the unit is driven.</exception>
    /// <exception cref="BoardChangedException">It is not driven.</exception>
    public async ValueTask OnlyIfDrivenAsync(MoveEnd end, CancellationToken cancel)
    {
        if (end is MoveEnd.Stalled or MoveEnd.NoCurrent or MoveEnd.CountStill or MoveEnd.OverTime
            && !await gate.CheckOutputsAsync(cancel))
        {
            throw new RunAbortedException(AbortReason.BenchFault, "the unit stands still and the board does not say whether it is driven: check the board and its link with 'bench check'");
        }
    }

    /// <summary>A silent feedback is the unit's only if the bench's own devices answered while it was silent, and still do.</summary>
    /// <exception cref="RunAbortedException">They did not.</exception>
    public async ValueTask OnlyIfBenchAnswersAsync(CancellationToken cancel)
    {
        if (sampler.WitnessedFailures < LeastWitnessed)
        {
            throw new RunAbortedException(AbortReason.BenchFault, "Feedback and the bench's own devices failed to answer together, so their link is at fault and not the unit. Look at the bench's bus: wiring, termination, adapter; 'bench check' tells how often it fails.");
        }

        for (int i = 0; i < RunGuard.MostMeterFailures; i++)
        {
            await sampler.ReadMetersAsync(cancel);
            if (sampler.MeterFault is null)
            {
                return;
            }
        }

        throw new RunAbortedException(AbortReason.BenchFault, $"Feedback and the bench's own devices stopped answering together ({sampler.MeterFault!.Detail}), so their link is at fault and not the unit. Look at the bench's bus: wiring, termination, adapter; 'bench check' tells which device answers.");
    }
}
