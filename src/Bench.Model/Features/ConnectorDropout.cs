namespace Bench.Model.Features;

/// <summary>A contact that opened while a person moved connector and cable.</summary>
/// <param name="Pair">Which wires, by what dropped out.</param>
/// <param name="AtS">First reading that failed, seconds since the run began.</param>
/// <param name="LengthS">Time until the first reading that did not, seconds; to the end of the watch where none came.</param>
public sealed record ConnectorDropout(ConnectorPair Pair, double AtS, double LengthS);
