namespace Bench.Devices.Modbus.Server;

/// <summary>Thrown by a register's handler to have the device answer with an exception of its choice.</summary>
/// <param name="code">The exception; not <see cref="ExceptionCode.None"/>.</param>
public sealed class DeviceRefusalException(ExceptionCode code) : InvalidOperationException($"the device refuses: {code}")
{
    /// <summary>The exception.</summary>
    public ExceptionCode Code => code;
}
