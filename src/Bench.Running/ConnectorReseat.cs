using Bench.Analysis.Feedback;
using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running;

/// <summary>
/// Has the feedback's connector reseated when the feedback is silent for good: a plug that was not home is the bench's
/// wiring, not the unit's fault. Once in a run; wiring that was touched is confirmed anew before anything is energised (S3).
/// </summary>
internal sealed class ConnectorReseat(
    string serial, IOperator person, SafetyGate gate, RunGuard guard, Sampler sampler, RunClock clock, RunBook book)
{
    /// <summary>Time between meter readings while a person is at work, seconds: the emergency stop and the board's watchdog are served.</summary>
    private const double PaceS = 0.1;

    private static readonly string[] Steps =
    [
        "Keep clear of the shaft: the drive is off and read back, but the supply is still there. Isolate the position first if the connector carries more than the feedback.",
        "Unplug the feedback connector, look at its pins, plug it in until its lock closes.",
        "Touch nothing else; cautions and wiring stand as you confirmed them.",
    ];

    private bool _tried;

    /// <summary>What came of it.</summary>
    public FeedbackTrial Trial { get; private set; } = FeedbackTrial.None;

    /// <summary>The feedback answers after its plug was set home: what came before says nothing of the unit.</summary>
    public void Answered() => Trial = new FeedbackTrial(null, clock.NowS);

    /// <summary>Asks, and waits until it is done; the caller then looks whether the feedback answers.</summary>
    /// <returns>Whether it was done now. False when it was before, or nobody did it.</returns>
    /// <exception cref="RunAbortedException">The run must end: emergency stop, dead meters.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven, or off can't be confirmed.</exception>
    public async ValueTask<bool> TryAsync(CancellationToken cancel)
    {
        if (_tried)
        {
            return false;
        }

        _tried = true;
        await guard.SeeRestAsync();
        gate.WithdrawConfirmation("the feedback connector is to be reseated");
        Task<bool> asked = person.HasDoneAsync(serial, "The feedback does not answer", Steps, cancel).AsTask();
        while (!asked.IsCompleted)
        {
            await Task.WhenAny(asked, clock.WaitAsync(PaceS, cancel).AsTask());
            await sampler.ReadMetersAsync(cancel);
            guard.WhileOff();
        }

        if (!await asked)
        {
            Trial = new FeedbackTrial(
                "the feedback fell silent and its connector was not reseated, so a plug that is not home may be why; reseat it and run the unit again", null);
            book.Write(RunEventKind.Note, "the feedback connector was not reseated: refused, or nobody to ask");
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
        book.Write(RunEventKind.Note, "the feedback connector was reseated");
        return true;
    }
}
