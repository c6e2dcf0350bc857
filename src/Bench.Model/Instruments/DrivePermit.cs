namespace Bench.Model.Instruments;

/// <summary>
/// Leave to energise one drive once, in one direction, before a time. Only the safety gate makes one
/// (its constructor is internal, and a banned-symbol rule in Bench.Running names the gate as its one caller),
/// so a move that skips the gate does not compile, and one that dawdles is refused.
/// </summary>
public sealed class DrivePermit
{
    private readonly TimeProvider _time;
    private readonly long _expires;
    private int _used;

    internal DrivePermit(TimeProvider time, DriveDirection direction, TimeSpan validFor, TimeSpan mostOnTime, int? target = null)
    {
        _time = time;
        _expires = time.GetTimestamp() + (long)(validFor.TotalSeconds * time.TimestampFrequency);
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

    /// <summary>Whether the time to begin has passed.</summary>
    public bool Expired => _time.GetTimestamp() >= _expires;

    /// <summary>
    /// Time left to begin; zero when expired. A device writes the output within this deadline or not at all (S8).
    /// </summary>
    public TimeSpan Remaining =>
        Expired ? TimeSpan.Zero : TimeSpan.FromSeconds((_expires - _time.GetTimestamp()) / (double)_time.TimestampFrequency);

    /// <summary>Takes the permit, once. Every <see cref="IDrive"/> calls this before it writes an output.</summary>
    /// <exception cref="PermitRefusedException">The permit has expired or was used before.</exception>
    public void Take()
    {
        if (Expired)
        {
            throw new PermitRefusedException("the permit to energise has expired");
        }

        if (Interlocked.Exchange(ref _used, 1) != 0)
        {
            throw new PermitRefusedException("the permit to energise was used before");
        }
    }
}
