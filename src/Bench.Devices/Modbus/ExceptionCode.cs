namespace Bench.Devices.Modbus;

/// <summary>Why a device refused (Application Protocol V1.1b3, section 7).</summary>
public enum ExceptionCode : byte
{
    /// <summary>It did not refuse.</summary>
    None = 0x00,

    /// <summary>The device does not know this function.</summary>
    IllegalFunction = 0x01,

    /// <summary>The device has no such address.</summary>
    IllegalDataAddress = 0x02,

    /// <summary>A quantity or value in the request is not allowed.</summary>
    IllegalDataValue = 0x03,

    /// <summary>The device failed while carrying it out.</summary>
    ServerDeviceFailure = 0x04,

    /// <summary>Accepted, will take long.</summary>
    Acknowledge = 0x05,

    /// <summary>Busy, ask later.</summary>
    ServerDeviceBusy = 0x06,

    /// <summary>Memory parity error.</summary>
    MemoryParityError = 0x08,

    /// <summary>The gateway has no path to the device.</summary>
    GatewayPathUnavailable = 0x0A,

    /// <summary>The device behind the gateway did not answer.</summary>
    GatewayTargetFailedToRespond = 0x0B,
}
