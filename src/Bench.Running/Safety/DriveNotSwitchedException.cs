namespace Bench.Running.Safety;

/// <summary>The board did not switch the drive on; it has been confirmed off since.</summary>
public sealed class DriveNotSwitchedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">What the board answered.</param>
    /// <param name="inner">The fault.</param>
    public DriveNotSwitchedException(string reason, Exception inner)
        : base(reason, inner)
    {
    }
}
