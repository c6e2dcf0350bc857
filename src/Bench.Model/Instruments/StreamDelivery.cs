namespace Bench.Model.Instruments;

/// <summary>What became of the frames that a device pushed.</summary>
/// <param name="Frames">Good frames.</param>
/// <param name="Lost">Frames missing by their counter, beside those that came damaged.</param>
/// <param name="Doubled">Frames that came again; the second is not used.</param>
/// <param name="Damaged">Frames whose check, or a number in them, was wrong.</param>
/// <param name="Restarted">How often the counter began anew.</param>
/// <param name="Dropped">Good frames that nobody took in time, oldest first.</param>
/// <param name="RateHz">Frames per second by the host's clock; null when too few came to tell.</param>
/// <param name="DelayP99Ms">Jitter: 99 % were delivered within this of the least delayed, milliseconds; null without a frame.</param>
/// <param name="DelayWorstMs">The most delayed one.</param>
public sealed record StreamDelivery(
    long Frames, long Lost, long Doubled, long Damaged, long Restarted, long Dropped, double? RateHz, double? DelayP99Ms, double? DelayWorstMs);
