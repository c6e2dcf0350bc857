namespace Bench.Model.Instruments;

/// <summary>A device or its link failed where no result can carry the fault (writes, read-back, opening).</summary>
public sealed class DeviceFaultException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="fault">The fault.</param>
    /// <param name="inner">The cause, where there is one.</param>
    public DeviceFaultException(DeviceFault fault, Exception? inner = null)
        : base($"{fault.Device} on {fault.Link}: {fault.Detail}", inner)
    {
        Fault = fault;
    }

    /// <summary>The fault.</summary>
    public DeviceFault Fault { get; }
}
