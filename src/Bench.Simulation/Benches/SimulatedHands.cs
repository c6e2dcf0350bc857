namespace Bench.Simulation.Benches;

/// <summary>What a person's hands do at a simulated unit when a run asks for it.</summary>
/// <param name="bench">The bench.</param>
/// <param name="position">Where the unit is.</param>
/// <param name="time">Clock.</param>
public sealed class SimulatedHands(SimulatedBench bench, string position, TimeProvider time)
{
    /// <summary>Takes the valve off.</summary>
    public void Uncouple() => bench.Uncouple(position);

    /// <summary>Moves the connector until told to stop, or until it has had enough.</summary>
    /// <param name="stop">Tells to stop.</param>
    /// <param name="mostS">How long it lasts at most, seconds; nobody keeps moving a cable for longer than five minutes.</param>
    /// <exception cref="OperationCanceledException">Told to stop; the connector is let go of.</exception>
    public async Task MoveConnectorAsync(CancellationToken stop, double mostS = 300)
    {
        bench.MoveConnector(position);
        try
        {
            await Task.Delay(TimeSpan.FromSeconds(mostS), time, stop);
        }
        finally
        {
            bench.MoveConnector(position, moved: false);
        }
    }
}
