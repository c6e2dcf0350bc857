namespace Bench.Running.Safety;

/// <summary>The gate did not give leave to energise. Nothing was energised.</summary>
public sealed class GateRefusedException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="reason">Why, in plain words.</param>
    public GateRefusedException(string reason)
        : base(reason)
    {
    }
}
