namespace Bench.Model.Instruments;

/// <summary>Leave to set the supply to one voltage once, before a time, the drive being off.</summary>
public sealed class SupplyPermit : Permit
{
    internal SupplyPermit(TimeProvider time, double voltageV, TimeSpan validFor)
        : base(time, validFor) => VoltageV = voltageV;

    /// <summary>The voltage, volts.</summary>
    public double VoltageV { get; }

    private protected override string Name => "the permit to set the supply";
}
