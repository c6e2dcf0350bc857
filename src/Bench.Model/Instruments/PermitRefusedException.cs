namespace Bench.Model.Instruments;

/// <summary>A drive was asked to energise without a valid permit. Nothing was energised.</summary>
public sealed class PermitRefusedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">Why, in plain words.</param>
    public PermitRefusedException(string reason)
        : base(reason)
    {
    }
}
