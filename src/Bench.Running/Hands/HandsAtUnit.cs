using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running.Hands;

/// <summary>
/// Lets a person work at the unit within a run: seen at rest, the gate closed, the bench watched meanwhile; afterwards the
/// safe state is read back and wiring that was touched is confirmed anew before anything is energised (S3).
/// </summary>
internal sealed class HandsAtUnit(string serial, IOperator person, SafetyGate gate, RunGuard guard, Sampler sampler, RunClock clock, RunBook book)
{
    /// <summary>Time between meter readings while a person is at work, seconds: the emergency stop and the board's watchdog are served.</summary>
    private const double PaceS = 0.1;

    /// <summary>Asks, and waits until it is done.</summary>
    /// <param name="task">The work.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <param name="watching">Looks at the unit while the person is at work, at its own pace; false when it has seen enough. Null to read the meters only.</param>
    /// <returns>Whether it was done. When not, nobody touched the unit, but the gate stays closed: nothing moves any more.</returns>
    /// <exception cref="RunAbortedException">The run must end: emergency stop, dead meters.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven, or off can't be confirmed.</exception>
    public async ValueTask<bool> DoneAsync(HandTask task, CancellationToken cancel, Func<CancellationToken, ValueTask<bool>>? watching = null)
    {
        await guard.SeeRestAsync();
        gate.WithdrawConfirmation(task.ToBe);
        Task<bool> asked = person.HasDoneAsync(task.Work, serial, task.Why, task.Steps, cancel).AsTask();

        // A supply that is isolated meanwhile is none of the run's.
        using IDisposable aside = sampler.Aside();
        while (!asked.IsCompleted)
        {
            if (watching is not null && await watching(cancel))
            {
                continue;
            }

            await Task.WhenAny(asked, clock.WaitAsync(PaceS, cancel).AsTask());
            await sampler.ReadMetersAsync(cancel);
            guard.WhileOff();
        }

        if (!await asked)
        {
            book.Write(RunEventKind.Note, $"{task.ToBe}: refused, or nobody to ask");
            return false;
        }

        try
        {
            await gate.ConfirmSafeStateAsync();
        }
        catch (GateRefusedException e)
        {
            throw new RunAbortedException(AbortReason.BenchFault, $"{e.Message}, and nothing was energised: check the board with 'bench check'.");
        }

        gate.Confirm(serial);

        // Hands may have turned a shaft: that is no drive.
        guard.Off();
        book.Write(RunEventKind.Note, task.Done);
        return true;
    }
}
