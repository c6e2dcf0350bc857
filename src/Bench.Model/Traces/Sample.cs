using System.Runtime.InteropServices;
using Bench.Model.Instruments;

namespace Bench.Model.Traces;

/// <summary>
/// One row of a trace. Position and meters are read at different rates, so a row may hold one, the other or both.
/// </summary>
/// <remarks>
/// 32 bytes, numbers first: what extraction takes longest for is to bring samples from memory. Columns are taken from them by
/// where their parts lie.
/// </remarks>
/// <param name="TimeS">Seconds since the run began, of the position reading where there is one, else of the meters.</param>
/// <param name="Drive">What the drive was commanded to be.</param>
/// <param name="Feedback">What became of the position reading; <see cref="FeedbackStatus.NotSampled"/> when none was tried.</param>
/// <param name="Count">The count read, or -1.</param>
/// <param name="CurrentA">Supply current in amperes, or NaN when not sampled.</param>
/// <param name="VoltageV">Supply voltage in volts, or NaN when not sampled.</param>
/// <param name="Index">The index input.</param>
[StructLayout(LayoutKind.Explicit, Size = 32)]
public readonly record struct Sample(
    [field: FieldOffset(0)] double TimeS,
    [field: FieldOffset(28)] DriveState Drive,
    [field: FieldOffset(29)] FeedbackStatus Feedback,
    [field: FieldOffset(24)] int Count,
    [field: FieldOffset(8)] double CurrentA,
    [field: FieldOffset(16)] double VoltageV,
    [field: FieldOffset(30)] IndexState Index)
{
    /// <summary>Whether <see cref="Count"/> is a reading.</summary>
    public bool HasCount => Feedback == FeedbackStatus.Ok;

    /// <summary>Whether the feedback answered with something it can mean, a count or not.</summary>
    public bool Heard => new FeedbackReading(Feedback, Count, 0, 0).Heard;

    /// <summary>Whether current and voltage were read.</summary>
    public bool HasMeters => !double.IsNaN(CurrentA);
}
