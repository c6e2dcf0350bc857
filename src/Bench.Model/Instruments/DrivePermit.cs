namespace Bench.Model.Instruments;

/// <summary>Leave to energise one drive once, in one direction, before a time. Every <see cref="IDrive"/> takes it before it writes an output.</summary>
public sealed class DrivePermit : Permit
{
    internal DrivePermit(TimeProvider time, DriveDirection direction, TimeSpan validFor, TimeSpan mostOnTime, int? target = null)
        : base(time, validFor)
    {
        Direction = direction;
        MostOnTime = mostOnTime;
        Target = target;
    }

    /// <summary>The direction this permit is for.</summary>
    public DriveDirection Direction { get; }

    /// <summary>The longest time the output may stay on under this permit (S7).</summary>
    public TimeSpan MostOnTime { get; }

    /// <summary>Count that a commanded unit is to be told, once, within this permit; null for any other.</summary>
    public int? Target { get; }

    private protected override string Name => "the permit to energise";
}
