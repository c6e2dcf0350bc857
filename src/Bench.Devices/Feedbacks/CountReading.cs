using Bench.Model.Instruments;

namespace Bench.Devices.Feedbacks;

/// <summary>A whole number that a feedback was asked for, not yet a place on a ring.</summary>
/// <param name="Fault">How it failed; null when it did not.</param>
/// <param name="Value">The number; 0 when there is none.</param>
/// <param name="At">Best estimate of the instant it was taken, a <see cref="TimeProvider"/> timestamp.</param>
/// <param name="AtUncertainty">Half-width of that instant, seconds.</param>
internal readonly record struct CountReading(DeviceFaultKind? Fault, long Value, long At, double AtUncertainty)
{
    /// <summary>What became of it, when it failed.</summary>
    public FeedbackReading Failed => Fault switch
    {
        DeviceFaultKind.Silent => new(FeedbackStatus.Silent, 0, 0, 0),
        DeviceFaultKind.Garbled => new(FeedbackStatus.Garbled, 0, 0, 0),
        DeviceFaultKind.Refused => new(FeedbackStatus.Refused, 0, At, AtUncertainty),
        _ => new(FeedbackStatus.LinkLost, 0, 0, 0),
    };
}
