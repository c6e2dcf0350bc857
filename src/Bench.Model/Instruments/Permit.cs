namespace Bench.Model.Instruments;

/// <summary>
/// Leave to change an output once, before a time. Only the safety gate makes one (constructors are internal, and a
/// banned-symbol rule in Bench.Running names the gate as their one caller), so what skips the gate does not compile, and what
/// dawdles is refused.
/// </summary>
public abstract class Permit
{
    private readonly TimeProvider _time;
    private readonly long _expires;
    private int _used;

    private protected Permit(TimeProvider time, TimeSpan validFor)
    {
        _time = time;
        _expires = time.GetTimestamp() + (long)(validFor.TotalSeconds * time.TimestampFrequency);
    }

    /// <summary>What it allows, for messages: "the permit to energise".</summary>
    private protected abstract string Name { get; }

    /// <summary>Whether the time to begin has passed.</summary>
    public bool Expired => _time.GetTimestamp() >= _expires;

    /// <summary>
    /// Time left to begin; zero when expired. A device writes the output within this deadline or not at all (S8).
    /// </summary>
    public TimeSpan Remaining =>
        Expired ? TimeSpan.Zero : TimeSpan.FromSeconds((_expires - _time.GetTimestamp()) / (double)_time.TimestampFrequency);

    /// <summary>Takes the permit, once. Every device calls this before it writes an output.</summary>
    /// <exception cref="PermitRefusedException">The permit has expired or was used before.</exception>
    public void Take()
    {
        if (Expired)
        {
            throw new PermitRefusedException($"{Name} has expired");
        }

        if (Interlocked.Exchange(ref _used, 1) != 0)
        {
            throw new PermitRefusedException($"{Name} was used before");
        }
    }
}
