using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>
/// Asks for several units in their order, and lets none go on before all have been answered for: hands may still be at
/// one unit, and supplies are shared. A unit that is refused stays out; nothing else changes.
/// </summary>
internal sealed class ConfirmationRound
{
    private readonly IOperator _person;
    private readonly TaskCompletionSource[] _answered;

    /// <summary>Begins a round.</summary>
    /// <param name="person">Who is asked.</param>
    /// <param name="units">Number of units.</param>
    public ConfirmationRound(IOperator person, int units)
    {
        _person = person;
        _answered = [.. Enumerable.Range(0, units).Select(_ => new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously))];
    }

    /// <summary>The person, as the run of one unit asks.</summary>
    /// <param name="unit">Which, from 0.</param>
    public IOperator For(int unit) => new Place(this, unit);

    /// <summary>Says that a unit's run has ended: whoever waits for its answer waits no more.</summary>
    /// <param name="unit">Which, from 0.</param>
    public void Leave(int unit) => _answered[unit].TrySetResult();

    private async ValueTask<bool> ConfirmAsync(
        int unit, string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        bool yes;
        try
        {
            if (unit > 0)
            {
                await _answered[unit - 1].Task.WaitAsync(cancel);
            }

            yes = await _person.ConfirmAsync(serial, cautions, wiring, cancel);
        }
        finally
        {
            Leave(unit);
        }

        if (yes)
        {
            await Task.WhenAll(_answered.Select(a => a.Task)).WaitAsync(cancel);
        }

        return yes;
    }

    private sealed class Place(ConfirmationRound round, int unit) : IOperator
    {
        public ValueTask<bool> ConfirmAsync(
            string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) =>
            round.ConfirmAsync(unit, serial, cautions, wiring, cancel);

        public bool CanAsk(HandWork work) => (work == HandWork.ReseatFeedback || round._answered.Length == 1) && round._person.CanAsk(work);

        // Beside units that may start at any time nobody takes one apart, or holds its cable.
        public ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) =>
            !CanAsk(work) ? new(false) : round._person.HasDoneAsync(work, serial, why, steps, cancel);
    }
}
