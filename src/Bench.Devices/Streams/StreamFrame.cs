using Bench.Model.Instruments;

namespace Bench.Devices.Streams;

/// <summary>A frame's number that was asked for, or why there is none.</summary>
/// <param name="Fault">Why there is none; null when there is.</param>
/// <param name="At">Instant of the frame, a <see cref="TimeProvider"/> timestamp.</param>
/// <param name="AtUncertainty">Half-width of that instant, seconds.</param>
internal readonly record struct StreamFrame(DeviceFaultKind? Fault, long At, double AtUncertainty);
