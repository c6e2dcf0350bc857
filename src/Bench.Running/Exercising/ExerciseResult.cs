namespace Bench.Running.Exercising;

/// <summary>What exercising the outputs of a position showed.</summary>
/// <param name="End">How it ended.</param>
/// <param name="Because">Why it ended before its time, and what to do; null when done.</param>
/// <param name="Pulses">Pulses made.</param>
/// <param name="Remarks">What in them is not as it should be, with what to do.</param>
/// <param name="OutputsConfirmedOff">Whether outputs were read back off at the end.</param>
public sealed record ExerciseResult(
    ExerciseEnd End, string? Because, IReadOnlyList<OutputPulse> Pulses, IReadOnlyList<string> Remarks, bool OutputsConfirmedOff);
