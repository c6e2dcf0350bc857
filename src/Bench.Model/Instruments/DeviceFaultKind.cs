namespace Bench.Model.Instruments;

/// <summary>How an exchange with a device failed, by what the caller can do about it.</summary>
public enum DeviceFaultKind
{
    /// <summary>No answer in time: check address, wiring, power, speed.</summary>
    Silent,

    /// <summary>Bytes came that are no valid answer (checksum, length, foreign frame): check noise, speed, parity.</summary>
    Garbled,

    /// <summary>The device answered that it will not (a Modbus exception): check the register map.</summary>
    Refused,

    /// <summary>The link itself is gone or cannot be opened: check the port, adapter or network.</summary>
    LinkLost,
}
