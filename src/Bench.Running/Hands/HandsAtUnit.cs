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

    /// <summary>Time between looks at the outputs while a person has hands at the unit, seconds.</summary>
    private const double OutputsPaceS = 0.5;

    /// <summary>Whether there is anybody to ask for a piece of work.</summary>
    public bool CanAsk(HandWork work) => person.CanAsk(work);

    /// <summary>Asks, and waits until it is done.</summary>
    /// <param name="task">The work.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Whether it was done. When not, nobody touched the unit, but the gate stays closed: nothing moves any more.</returns>
    /// <exception cref="RunAbortedException">The run must end: emergency stop, dead meters.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven, or off can't be confirmed.</exception>
    public async ValueTask<bool> DoneAsync(HandTask task, CancellationToken cancel)
    {
        await CloseAsync(task.ToBe);
        if (!await AnsweredAsync(task, cancel))
        {
            return false;
        }

        await ReopenAsync(task.Done);
        return true;
    }

    /// <summary>Closes the gate for hands that will come near, the unit seen at rest.</summary>
    /// <param name="why">What is to be done, for the record.</param>
    public async ValueTask CloseAsync(string why)
    {
        await guard.SeeRestAsync();
        gate.WithdrawConfirmation(why);
    }

    /// <summary>Asks, and waits for the answer; a supply that is isolated meanwhile is none of the run's.</summary>
    /// <returns>Whether it was done.</returns>
    public async ValueTask<bool> AnsweredAsync(HandTask task, CancellationToken cancel)
    {
        using CancellationTokenSource withdrawn = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        Task<bool> asked = AskAsync(task, withdrawn.Token);
        using IDisposable aside = sampler.Aside();
        try
        {
            while (!asked.IsCompleted)
            {
                await Task.WhenAny(asked, clock.WaitAsync(PaceS, cancel).AsTask());
                await sampler.ReadMetersAsync(cancel);
                guard.WhileOff();
            }

            if (await asked)
            {
                return true;
            }
        }
        finally
        {
            // A run that ends meanwhile leaves no question standing.
            Stop(withdrawn);
        }

        book.Write(RunEventKind.Note, $"{task.ToBe}: refused, or nobody to ask");
        return false;
    }

    /// <summary>
    /// Has a person begin, and reads position and meters as fast as they can be read until the person stops or enough is seen;
    /// then the person is told to stop. The outputs are read back all along.
    /// </summary>
    /// <param name="task">The work.</param>
    /// <param name="look">Looks at what was read; true when it has seen enough.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <returns>Whether the person stopped; false when the bench had seen enough.</returns>
    /// <exception cref="RunAbortedException">The run must end: emergency stop, dead meters.</exception>
    /// <exception cref="BoardChangedException">The board restarted, or its outputs are not off.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven.</exception>
    public async ValueTask<bool> WatchAsync(HandTask task, Func<bool> look, CancellationToken cancel)
    {
        using CancellationTokenSource enough = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        Task<bool> asked = AskAsync(task, enough.Token);
        double outputsS = clock.NowS;
        try
        {
            while (!asked.IsCompleted)
            {
                await sampler.SlotAsync(cancel);
                guard.WhileOff();
                if (clock.NowS - outputsS >= OutputsPaceS)
                {
                    await gate.CheckOutputsAsync(cancel);
                    outputsS = clock.NowS;
                }

                if (look())
                {
                    return false;
                }
            }

            await asked;
            return true;
        }
        finally
        {
            Stop(enough);
        }
    }

    /// <summary>Reads the safe state back and takes the confirmation anew; hands are off.</summary>
    /// <param name="done">What was done, for the record.</param>
    public async ValueTask ReopenAsync(string done)
    {
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
        book.Write(RunEventKind.Note, done);
    }

    // CancelAsync would leave the run's scheduler.
    private static void Stop(CancellationTokenSource asking) => asking.Cancel();

    private Task<bool> AskAsync(HandTask task, CancellationToken cancel) =>
        person.HasDoneAsync(task.Work, serial, task.Why, task.Steps, cancel).AsTask();
}
