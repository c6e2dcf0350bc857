namespace Bench.Model.Instruments;

/// <summary>An output was to be changed without a valid permit. Nothing was changed.</summary>
public sealed class PermitRefusedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">Why, in plain words.</param>
    public PermitRefusedException(string reason)
        : base(reason)
    {
    }
}
