namespace Bench.Running.Safety;

/// <summary>An output could not be confirmed off: treat it as on.</summary>
public sealed class OutputNotConfirmedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">What the board answered last, and what to do.</param>
    public OutputNotConfirmedException(string reason)
        : base(reason)
    {
    }
}
