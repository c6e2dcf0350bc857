namespace Bench.Devices.Modbus;

/// <summary>The silence that parts RTU frames (Serial Line V1.02, 2.5.1.1).</summary>
public static class RtuTiming
{
    /// <summary>The silence above 19200 baud, where 3.5 characters would be too short to time.</summary>
    public static readonly TimeSpan LeastGap = TimeSpan.FromMicroseconds(1750);

    /// <summary>
    /// The silence between frames: 3.5 characters, and 1.75 ms above 19200 baud, which is the greater of the two
    /// at every speed. Zero where characters take no time (TCP).
    /// </summary>
    public static TimeSpan Gap(TimeSpan characterTime)
    {
        TimeSpan gap = characterTime * 3.5;
        return characterTime > TimeSpan.Zero && gap < LeastGap ? LeastGap : gap;
    }
}
