namespace Bench.Simulation.Units;

/// <summary>How a ring of sensors departs from one with even spacing.</summary>
/// <param name="OncePerTurnCounts">Amplitude of the error of an eccentric ring, counts.</param>
/// <param name="TwicePerTurnCounts">Amplitude of that of an oval one, counts.</param>
/// <param name="PhasesRad">Phases of the two, radians.</param>
/// <param name="EdgeOffsets">By how much the edge between each count and the next is out of its place, counts; less than half of one. Empty for none.</param>
public sealed record RingGeometry(
    double OncePerTurnCounts, double TwicePerTurnCounts, (double Once, double Twice) PhasesRad, IReadOnlyList<double> EdgeOffsets);
