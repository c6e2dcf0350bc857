using Bench.Analysis.Feedback;

namespace Bench.Running.Hands;

/// <summary>
/// Has the feedback's connector reseated when the feedback is silent for good: a plug that was not home is the bench's
/// wiring, not the unit's fault. Once in a run.
/// </summary>
internal sealed class ConnectorReseat(HandsAtUnit hands, RunClock clock)
{
    private static readonly HandTask Task = new(
        HandWork.ReseatFeedback,
        "the feedback connector is to be reseated",
        "the feedback connector was reseated",
        "The feedback does not answer",
        [
            "Keep clear of the shaft: the drive is off and read back, but the supply is still there. Isolate the position first if the connector carries more than the feedback.",
            "Unplug the feedback connector, look at its pins, plug it in until its lock closes.",
            "Touch nothing else; cautions and wiring stand as you confirmed them.",
        ]);

    private bool _tried;

    /// <summary>What came of it.</summary>
    public FeedbackTrial Trial { get; private set; } = FeedbackTrial.None;

    /// <summary>The feedback answers after its plug was set home: what came before says nothing of the unit.</summary>
    public void Answered() => Trial = new FeedbackTrial(null, clock.NowS);

    /// <summary>Asks, and waits until it is done; the caller then looks whether the feedback answers.</summary>
    /// <returns>Whether it was done now. False when it was before, or nobody did it.</returns>
    /// <exception cref="RunAbortedException">The run must end: emergency stop, dead meters.</exception>
    /// <exception cref="Safety.OutputNotConfirmedException">The unit is driven, or off can't be confirmed.</exception>
    public async ValueTask<bool> TryAsync(CancellationToken cancel)
    {
        if (_tried)
        {
            return false;
        }

        _tried = true;
        if (await hands.DoneAsync(Task, cancel))
        {
            return true;
        }

        Trial = new FeedbackTrial(
            "the feedback fell silent and its connector was not reseated, so a plug that is not home may be why; reseat it and run the unit again", null);
        return false;
    }
}
