namespace Bench.Simulation.Benches;

/// <summary>A relay's coil changed.</summary>
/// <param name="Position">Unit position.</param>
/// <param name="Up">Whether it is the relay towards rising counts.</param>
/// <param name="On">What the coil is now.</param>
/// <param name="Commanded">Whether a frame on the link did it; else the board's own restart.</param>
public readonly record struct OutputChange(string Position, bool Up, bool On, bool Commanded);
