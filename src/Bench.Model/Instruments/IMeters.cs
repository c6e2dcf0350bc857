namespace Bench.Model.Instruments;

/// <summary>Current, voltage and inputs of one unit position.</summary>
public interface IMeters
{
    /// <summary>Reads all of them once. Never throws for what the wire did; the reading says it.</summary>
    ValueTask<MeterReading> ReadAsync(CancellationToken cancel);

    /// <summary>All readings, where the meters push them; null where they are polled.</summary>
    IPushedReadings<MeterReading>? Pushed => this as IPushedReadings<MeterReading>;
}
