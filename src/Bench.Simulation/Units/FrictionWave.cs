namespace Bench.Simulation.Units;

/// <summary>Friction that rises and falls round the turn: a bent shaft, a seat out of square.</summary>
/// <param name="Periods">Times a turn.</param>
/// <param name="Share">Amplitude as a share of the friction between ports.</param>
/// <param name="PhaseRad">Where, radians.</param>
public sealed record FrictionWave(int Periods, double Share, double PhaseRad);
