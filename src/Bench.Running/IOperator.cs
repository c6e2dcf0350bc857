namespace Bench.Running;

/// <summary>The person at the bench.</summary>
public interface IOperator
{
    /// <summary>Whether there is anybody to ask for a piece of work; what nobody would do is left out beforehand.</summary>
    /// <param name="work">The work.</param>
    bool CanAsk(HandWork work) => true;

    /// <summary>Asks for confirmation of cautions and wiring before anything is energised (S3).</summary>
    /// <param name="serial">Serial number of the unit.</param>
    /// <param name="cautions">The cautions.</param>
    /// <param name="wiring">How the unit must be connected.</param>
    /// <param name="cancel">Cancels the question.</param>
    /// <returns>True only for a clear yes.</returns>
    ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel);

    /// <summary>
    /// Asks a person to do something at the unit, drive off and read back, and to confirm it. The run goes on watching
    /// the bench meanwhile.
    /// </summary>
    /// <param name="work">Which work it is.</param>
    /// <param name="serial">Serial number of the unit.</param>
    /// <param name="why">What was found.</param>
    /// <param name="steps">What to do, cautions first.</param>
    /// <param name="cancel">Cancels the question.</param>
    /// <returns>True only when it was done; false when not, or there is nobody to ask.</returns>
    ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel);
}
